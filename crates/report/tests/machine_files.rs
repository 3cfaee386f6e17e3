//! Files of every machine form for all demo builds and for builds made to break them, to be read by programs that others
//! wrote (`tests/outputs/run`). They are put into the folder that `COACHWRIGHT_OUTPUTS` names, else into cargo's for tests.
#![allow(clippy::expect_used, reason = "a test that cannot go on stops")]

use report::{Build, Context, Fix, MachineForm, PackName, RuleAbout, Stream, Unread, json};
use rules::finding::{Finding, Place, Review};
use rules::{ReviewOptions, Signal, Today};
use spec::{LoadFault, Loaded, Loader};
use std::fs;
use std::path::{Path, PathBuf};

const FORMS: [(MachineForm, &str); 5] = [
    (MachineForm::Sarif, "sarif"),
    (MachineForm::Junit, "junit.xml"),
    (MachineForm::Gitlab, "gitlab.json"),
    (MachineForm::Github, "github.txt"),
    (MachineForm::Markdown, "md"),
];

/// Reads below a folder; names are relative to it.
struct Below<'a>(&'a Path);

impl Loader for Below<'_> {
    fn load(&self, from: Option<&str>, name: &str) -> Result<Loaded, LoadFault> {
        let name = match from.and_then(|from| from.rsplit_once('/')) {
            Some((folder, _)) => format!("{folder}/{name}"),
            None => name.to_owned(),
        };
        match fs::read_to_string(self.0.join(&name)) {
            Ok(text) => Ok(Loaded { name, text }),
            Err(fault) => Err(LoadFault::Refused(fault.to_string())),
        }
    }
}

fn reviewed(folder: &Path, name: &str) -> Review {
    let packs = packs::shipped().expect("the packs are whole");
    let today = "2026-06-01".parse().expect("a day");
    rules::review(&Below(folder), name, packs, ReviewOptions { today: Today::Is(today), draft: false })
}

fn context() -> Context {
    let packs = packs::shipped().expect("the packs are whole");
    let rules = packs.rules.iter().map(|rule| RuleAbout::new(rule, String::new())).collect();
    let pack = PackName { name: String::from("practice"), edition: None };
    Context::new(String::from("0.1.0"), Signal::Warning, vec![pack], rules)
}

/// An edit at both ends of what a finding points to, so that every place is also tried as a replacement.
fn brackets(finding: &Finding) -> Vec<Fix> {
    let Place { file, bytes } = finding.place.clone();
    let at = |byte: usize| Place { file, bytes: byte..byte };
    let changes = vec![(at(bytes.start), String::from("/*")), (at(bytes.end), String::from("*/\n"))];
    vec![Fix { title: String::from("set it aside"), changes, preferred: false }]
}

/// Writes one document of each form, and beside it the reviews as JSON, one a line.
fn write(to: &Path, name: &str, builds: &[(String, Review)], unread: &[Unread]) {
    let context = context();
    for (form, ending) in FORMS {
        let (mut stream, mut text) = Stream::new(form, &context);
        for (path, review) in builds {
            text.push_str(&stream.build(&Build { review, path, fixes: &brackets }));
        }
        for one in unread {
            text.push_str(&stream.unread(one));
        }
        text.push_str(&stream.finish());
        fs::write(to.join(format!("{name}.{ending}")), text).expect("the file can be written");
    }
    let lines: String = builds.iter().map(|(_, review)| format!("{}\n", json(review, Signal::Warning))).collect();
    fs::write(to.join(format!("{name}.jsonl")), lines).expect("the file can be written");
}

/// Names that are markup, commands or tricks somewhere.
const NAMES: [&str; 14] = [
    r"<script>alert(1)</script>",
    r"</summary></details><img src=x onerror=alert(1)>",
    r"@everyone #1 !2 GH-3 $x$ :tada:",
    r"a | b || c",
    r"[x](javascript:alert(1)) ![y](http://evil.example) <http://evil.example>",
    r"http://evil.example www.evil.example mailto:me@evil.example",
    r"`code` ``two`` *a* _b_ ~~c~~ \\ \\| \\<b>",
    r"{0} {{1}} [0](1)",
    r"::error file=x::pwned ##[error]pwned %0A::set-output",
    r"]]> &amp; &lt;b&gt; <!-- --> <![CDATA[x",
    r"größe 🚐 👩‍🔧 漢字 é",
    r"\u{7}\u{1b}[31m\u{fffe}\u{ffff}\u{202e}\u{9b}x\r\n::error::pwned\n\n# heading\n- @everyone",
    r#"\" onclick=\"alert(1)"#,
    r"&#64;everyone &commat;everyone",
];

/// A build in which every part that is complained of has a name made to break a form.
fn nasty(name: &str, line_end: &str, mark: &str) -> String {
    let text = format!(
        "{mark}build \"{name}\" {{\n    stage review\n    basis eu\n    none gas cooking toilet\n}}\nvehicle class=motor-caravan {{\n}}\n\
         battery house chemistry=LFP voltage=\"25.6 V\" capacity=\"100 Ah\"\n/* größe 🚐 */ circuit \"{name}\" from=house {{\n\
         \twire size=\"0.75 mm2\" one-way=\"3 m\"\n    serves \"{name} lamp\"\n}}\n\
         /* 🚐🚐 */ lamp \"{name} lamp\" power=16A colour=\"{name}\"\nwaive \"{name}\" reason=\"{name}\" by=\"{name}\"\nbattery \"{name}\n"
    );
    text.replace('\n', line_end)
}

#[test]
fn every_form_is_written_for_demo_builds_and_for_nasty_ones() {
    let named = std::env::var_os("COACHWRIGHT_OUTPUTS").map(PathBuf::from);
    let to = named.unwrap_or_else(|| Path::new(env!("CARGO_TARGET_TMPDIR")).join("outputs"));
    fs::create_dir_all(to.join("nasty")).expect("the folder can be made");
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let mut demos: Vec<String> = fs::read_dir(root.join("tests/builds"))
        .expect("the demo builds are there")
        .map(|entry| format!("tests/builds/{}", entry.expect("an entry").file_name().to_string_lossy()))
        .filter(|path| path.ends_with(".build.kdl"))
        .collect();
    demos.sort();
    assert!(demos.len() >= 2);
    let demos: Vec<(String, Review)> = demos.into_iter().map(|path| (path.clone(), reviewed(&root, &path))).collect();
    let clean: Vec<(String, Review)> = demos.iter().filter(|(path, _)| !path.contains("faulty")).cloned().collect();
    let mut builds = Vec::new();
    for (number, name) in NAMES.iter().enumerate() {
        for (kind, line_end, mark) in [("lf", "\n", ""), ("crlf", "\r\n", "\u{feff}"), ("cr", "\r", "")] {
            let path = match number {
                0 => format!("nasty/größe, 100%:{kind} #1?.build.kdl"),
                1 => format!("nasty/@everyone <b>|`{kind}.build.kdl"),
                _ => format!("nasty/{number}-{kind}.build.kdl"),
            };
            fs::write(to.join(&path), nasty(name, line_end, mark)).expect("the build can be written");
            let review = reviewed(&to, &path);
            assert!(!review.failed.is_empty(), "{path} has something to say");
            builds.push((path, review));
        }
    }
    let unread: Vec<Unread> = NAMES
        .iter()
        .map(|name| Unread {
            path: format!("./nasty/{name}\u{1b}\n::error::x"),
            message: format!("there is no file {name}\u{1b}\r\n::error::x\n\n@everyone"),
        })
        .collect();
    write(&to, "demos", &demos, &[]);
    write(&to, "clean", &clean, &[]);
    write(&to, "nasty", &builds, &unread);
    write(&to, "none", &[], &[]);
    write(&to, "unread", &[], &unread);
    let size = fs::metadata(to.join("demos.sarif")).expect("it was written").len();
    assert!(size > 1_000, "the file says something");
}
