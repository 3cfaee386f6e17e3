//! What is kept of a specification that is being written or was damaged, and what no text can do.

mod text_support;

use spec::text::{BlockCache, DEEPEST, Document, FaultKind, LARGEST, Unread, read, tidy};
use text_support::{Dice, ILLUSTRATION, check_spans, outline, wild_text};

/// The stack of the threads that the hardest texts are read on: reading recurses on nothing but trees of `DEEPEST` levels.
/// Measured in the development profile, reading and tidying need less than 64 KiB; the rest is for the test harness.
const SMALL_STACK: usize = 128 * 1024;

fn fresh(text: &str) -> Document {
    read(text, &mut BlockCache::new())
}

fn names(document: &Document) -> Vec<String> {
    document.nodes.iter().map(outline_without_marks).collect()
}

fn outline_without_marks(node: &spec::text::Node) -> String {
    outline(std::slice::from_ref(node))
}

#[test]
fn every_prefix_keeps_the_blocks_before_its_end() {
    let whole = fresh(ILLUSTRATION);
    let expected = names(&whole);
    let mut cache = BlockCache::new();
    for end in (0..ILLUSTRATION.len()).filter(|end| ILLUSTRATION.is_char_boundary(*end)) {
        let prefix = &ILLUSTRATION[..end];
        let document = read(prefix, &mut cache);
        check_spans(prefix, &document);
        // A line that goes on behind its block, as with half a comment, is not complete.
        let is_complete = |node: &&spec::text::Node| {
            let behind = prefix.get(node.at.end as usize..);
            behind.is_some_and(|behind| behind.trim().is_empty() || behind.contains('\n'))
        };
        let complete = whole.nodes.iter().filter(is_complete).count();
        assert_eq!(names(&document)[..complete], expected[..complete], "the first {end} bytes");
        assert!(document.nodes.len() <= complete + 1);
    }
}

#[test]
fn one_missing_character_costs_at_most_its_block() {
    let whole = fresh(ILLUSTRATION);
    let expected = names(&whole);
    let mut cache = BlockCache::new();
    let (mut more_than_one, mut deletions, mut loud) = (0, 0, 0);
    for (at, character) in ILLUSTRATION.char_indices() {
        let mut text = ILLUSTRATION.to_owned();
        text.remove(at);
        let document = read(&text, &mut cache);
        check_spans(&text, &document);
        deletions += 1;
        let kept = names(&document);
        let lost = expected.iter().filter(|block| !kept.contains(block)).count();
        // Two blocks whose line end is gone are one line: both are lost.
        let allowed = if character == '\n' { 2 } else { 1 };
        more_than_one += usize::from(lost > allowed);
        loud += usize::from(document.faults.len() > 2);
    }
    assert_eq!(more_than_one, 0, "of {deletions} deletions");
    assert!(loud * 100 <= deletions, "{loud} of {deletions} deletions make more than two faults");
}

#[test]
fn too_deep_loses_only_what_is_too_deep() {
    let nest = |levels: usize| format!("before\n{}{}\nafter 1\n", "a {".repeat(levels), "}".repeat(levels));
    assert_eq!(fresh(&nest(DEEPEST)).faults, []);
    let document = fresh(&nest(DEEPEST + 1));
    assert_eq!(document.faults.iter().map(|fault| fault.kind).collect::<Vec<_>>(), [FaultKind::TooDeep]);
    assert_eq!(document.nodes.len(), 3);
    assert_eq!(document.nodes[1].unread, Unread::Inside);
    assert_eq!(outline(&document.nodes[2..]), "after(1)");
}

#[test]
fn the_hardest_texts_need_little_stack() {
    let deep = 20_000;
    let texts = [
        format!("{}{}", "a 1.5 \"\\n\" { ".repeat(deep), "}".repeat(deep)),
        format!("{}{}", "a 1.5 \"\\n\" { ".repeat(DEEPEST), "}".repeat(DEEPEST)),
        "a {\n".repeat(deep),
        "{".repeat(deep),
        "}".repeat(deep),
        format!("a {}{} 1.5", "/*".repeat(deep), "*/".repeat(deep)),
        format!("a /*{}*/ 1.5", "*".repeat(deep)),
        format!("a {}1.5", "/- ".repeat(deep)),
        format!("{}{}", "a /-{ ".repeat(deep), "}".repeat(deep)),
        format!("{}1.5", "/- a { ".repeat(deep)),
        format!("a {}", "(".repeat(deep)),
        format!("a {}", ")".repeat(deep)),
        format!("a {}\"x", "#".repeat(deep)),
        "a \"\"\"\n".repeat(deep),
        "a /*\n".repeat(deep),
        "a \"x\n".repeat(deep),
    ];
    let work = move || {
        for text in &texts {
            let mut cache = BlockCache::new();
            let document = read(text, &mut cache);
            check_spans(text, &document);
            assert_eq!(read(text, &mut cache), document);
            assert_eq!(tidy(text).is_ok(), document.faults.is_empty());
        }
        for seed in 0..50 {
            fresh(&wild_text(&mut Dice::new(seed), 500));
        }
    };
    let builder = std::thread::Builder::new().stack_size(SMALL_STACK);
    let thread = builder.spawn(work).expect("a thread starts");
    thread.join().expect("the thread ends");
}

#[test]
fn large_texts_are_refused_and_many_faults_counted() {
    let large = "a 1\n".repeat(50_000_000 / 4);
    let document = fresh(&large);
    assert_eq!(document.faults.iter().map(|fault| fault.kind).collect::<Vec<_>>(), [FaultKind::TooLarge]);
    assert!(document.nodes.is_empty() && document.incomplete);
    assert!(spec::text::read_bytes(large.as_bytes()).is_err());
    assert_eq!(fresh(&" ".repeat(LARGEST)).faults, []);

    for text in ["a 16A\n".repeat(10_000), format!("b {{\n{}}}\n", "a 16A\n".repeat(10_000))] {
        let document = fresh(&text);
        assert_eq!(document.faults.len(), 201);
        let last = document.faults.last().expect("the last fault");
        assert_eq!(last.kind, FaultKind::ManyMore);
        assert!(last.message.starts_with("9800 more"), "{}", last.message);
    }
}

#[test]
fn random_bytes_are_read_or_refused() {
    let mut dice = Dice::new(3);
    for _ in 0..500 {
        let bytes: Vec<u8> = (0..200).map(|_| dice.below(256) as u8).collect();
        let text = String::from_utf8_lossy(&bytes).into_owned();
        check_spans(&text, &fresh(&text));
        if let Ok(text) = spec::text::read_bytes(&bytes) {
            check_spans(text, &fresh(text));
        }
    }
}
