//! A review needs little stack, whatever the text: an editor may run it on any thread.

#![allow(clippy::expect_used, reason = "a test may stop where the repository is not as it must be")]

use rules::review::{ReviewOptions, Today, review};
use spec::{LoadFault, Loaded, Loader};
use std::path::Path;

/// The stack of the thread, in bytes: an eighth of what a thread usually has.
const STACK: usize = 256 * 1024;

/// How deep the hostile text nests.
const DEEP: usize = 20_000;

/// How many files include each other in a chain.
const CHAIN: usize = 400;

/// Texts by name, and a chain of files `0.kdl`, `1.kdl`, … of which each includes the next.
struct Texts(String);

impl Loader for Texts {
    fn load(&self, _: Option<&str>, name: &str) -> Result<Loaded, LoadFault> {
        let number = name.strip_suffix(".kdl").and_then(|number| number.parse::<usize>().ok());
        let text = match number {
            Some(number) if number < CHAIN => format!("include \"{}.kdl\"\nbattery b{number}\n", number + 1),
            Some(_) => String::new(),
            None if name == "shop.parts.kdl" => String::new(),
            None => self.0.clone(),
        };
        Ok(Loaded { name: name.to_owned(), text })
    }
}

fn reviewed_on_a_small_stack(text: String) -> Vec<String> {
    let work = move || {
        let packs = packs::shipped().expect("the shipped packs are sound");
        let options = ReviewOptions { today: Today::Is(jiff::civil::date(2026, 11, 25)), draft: false };
        let review = review(&Texts(text), "hostile.build.kdl", packs, options);
        review.failed.iter().map(|finding| finding.rule.to_string()).collect()
    };
    let thread = std::thread::Builder::new().stack_size(STACK).spawn(work).expect("a thread starts");
    thread.join().expect("the review comes to its end")
}

#[test]
fn demo_builds_are_reviewed_on_a_small_stack() {
    let builds = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/builds");
    let faulty = std::fs::read_to_string(builds.join("bramble-faulty.build.kdl")).expect("the demo build is there");
    assert!(reviewed_on_a_small_stack(faulty).contains(&"protection/none-at-source".to_owned()));
}

#[test]
fn nesting_beyond_all_reason_is_a_finding() {
    for opening in ["a {", "water-line cold { branch {", "build B { ", "/* "] {
        let found = reviewed_on_a_small_stack(opening.repeat(DEEP));
        assert!(found.iter().any(|rule| rule.starts_with("text/")), "{opening}: {found:?}");
    }
}

#[test]
fn a_long_chain_of_includes_is_a_finding() {
    let found = reviewed_on_a_small_stack("build B { stage draft; basis eu }\ninclude \"0.kdl\"\n".to_owned());
    assert!(found.contains(&"text/include-missing".to_owned()), "{found:?}");
}

#[test]
fn a_long_chain_of_transfer_switches_comes_to_its_end() {
    let mut text = "build B { stage draft; basis us }\nshore { inlet rating=\"30 A\" voltage=\"120 V\"; to s0 wire=\"10 AWG\" one-way=\"1 m\"; }\n".to_owned();
    for number in 0..CHAIN {
        text += &format!(
            "transfer-switch s{number}\ncircuit c{number} from=s{number} to=s{} {{ wire size=\"10 AWG\" one-way=\"1 m\"; }}\n",
            number + 1
        );
    }
    reviewed_on_a_small_stack(text);
}
