//! What the tests of the text layer share: a specification, a seeded generator of texts, and checks that hold for any text.
#![allow(dead_code, reason = "each test file uses a part of this")]

use spec::text::{Bytes, Document, Node, Scalar, Word};

/// A whole specification.
pub const ILLUSTRATION: &str = include_str!("illustration.build.kdl");

/// A small generator of numbers (xorshift, 64 bits), so that a failing text can be made again from its seed.
pub struct Dice(u64);

impl Dice {
    pub fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1)
    }

    pub fn below(&mut self, limit: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) as usize % limit.max(1)
    }

    pub fn of<'a>(&mut self, choices: &[&'a str]) -> &'a str {
        choices[self.below(choices.len())]
    }
}

const NAMES: &[&str] = &["wire", "fuse", "\"two words\"", "größe", "a-b.c", "(t)typed", "+", "x2", "#\"raw \" name\"#"];
const VALUES: &[&str] = &[
    "\"12 V\"",
    "yes",
    "5",
    "-2.5",
    "1e3",
    "0xff",
    "#true",
    "#null",
    "\"q\\\"u\\n\\u{41}\"",
    "#\"raw \\ \"#",
    "##\"a \"# b\"##",
    "\"\"",
    "(mm)3",
    "( \"u\" )\"v\"",
    "\"\"\"\n  x\n   y\n  \"\"\"",
    "#\"\"\"\n z \\q\n \"\"\"#",
    "\"// no comment\"",
    "\"{\"",
    "\"日本\"",
    "\"a \\\n   b\"",
    "/*c*/",
];
const SPACES: &[&str] =
    &[" ", " ", " ", "   ", "\t", " /* c */ ", " \\\n  ", " \\ // go on\n", "\u{A0}", " /* a\n /* b */ } */ "];
const ENDS: &[&str] = &["\n", "\n", "\n\n\n", "; ", " // end }\n", "\r\n", " \n", "\u{2028}"];

/// A text that can be read, with everything that KDL 2 allows.
pub fn valid_text(dice: &mut Dice, nodes: usize, depth: usize) -> String {
    let mut out = String::new();
    for _ in 0..nodes {
        if dice.below(8) == 0 {
            out.push_str(dice.of(&[
                "// a comment {\n",
                "/* block \n comment */\n",
                "\n",
                "/- off 1 { x; }\n",
                "/-\noff2\n",
            ]));
        }
        out.push_str(dice.of(&["", "", "  ", "\t"]));
        out.push_str(dice.of(NAMES));
        for _ in 0..dice.below(4) {
            out.push_str(dice.of(SPACES));
            if dice.below(6) == 0 {
                out.push_str(dice.of(&["/-", "/- ", "/-\n"]));
            }
            if dice.below(2) == 0 {
                out.push_str(dice.of(&["size=", "\"k e y\"=", "at = ", "größe="]));
                out.push_str(dice.of(&VALUES[..VALUES.len() - 1]));
            } else {
                out.push_str(dice.of(&VALUES[..VALUES.len() - 1]));
            }
        }
        if depth > 0 && dice.below(3) == 0 {
            if dice.below(5) == 0 {
                out.push_str(" /-{ gone \"1\" { deeper; } }");
            }
            out.push_str(dice.of(&[" {", "  {", " {\n", " { // why\n"]));
            let inside = dice.below(4);
            out.push_str(&valid_text(dice, inside, depth - 1));
            out.push('}');
        }
        out.push_str(dice.of(ENDS));
    }
    out
}

/// A text of pieces thrown together: mostly faulty, and worse than what anyone writes.
pub fn wild_text(dice: &mut Dice, pieces: usize) -> String {
    const PIECES: &[&str] = &[
        "{",
        "}",
        "{",
        "}",
        "\n",
        "\n",
        "\n    ",
        " ",
        " ",
        ";",
        "\"",
        "\"\"\"",
        "#",
        "#\"",
        "\"#",
        "\\",
        "/",
        "/*",
        "*/",
        "//",
        "/-",
        "(",
        ")",
        "=",
        "a",
        "b1",
        "16A",
        "2,5",
        "true",
        "\"x\"",
        "“",
        "”",
        "é",
        "\u{0}",
        "\u{FEFF}",
        "\r\n",
        "\u{85}",
        "[",
        "r\"",
        "size=",
        "日",
        "\\u{",
        "-",
        "+.",
        "1.",
        "0x",
        "#true",
        "null",
        "\"\"\"\n",
        "\n\"\"\"",
        "\u{1F600}",
        "zone a {\n    b \"1\"\n}\n",
    ];
    (0..pieces).map(|_| dice.of(PIECES)).collect()
}

/// All spans lie in the text, on the borders of characters, in order, and hold what the tree says is written there.
pub fn check_spans(text: &str, document: &Document) {
    let whole = 0..text.len() as u32;
    check_nodes(text, &document.nodes, &whole);
    for fault in &document.faults {
        slice(text, &fault.at);
        if let Some(mend) = &fault.instead {
            slice(text, &mend.at);
        }
        assert!(!fault.message.is_empty() && !fault.why.is_empty() && !fault.help.is_empty());
    }
    for pair in document.faults.windows(2) {
        assert!(pair[0].at.start <= pair[1].at.start, "faults in the order of the text: {pair:?}");
    }
}

pub fn slice<'t>(text: &'t str, at: &Bytes) -> &'t str {
    let written = text.get(at.start as usize..at.end as usize);
    assert!(written.is_some(), "{at:?} is no span of {text:?}");
    written.unwrap_or_default()
}

fn check_nodes(text: &str, nodes: &[Node], within: &Bytes) {
    let mut behind = within.start;
    for node in nodes {
        let inside = |at: &Bytes| at.start >= node.at.start && at.end <= node.at.end;
        assert!(node.at.start >= behind && node.at.end <= within.end, "{:?} in {within:?} of {text:?}", node.at);
        behind = node.at.end;
        check_word(text, &node.name);
        assert!(inside(&node.name.at));
        let mut entry_behind = node.name.at.end;
        for entry in &node.entries {
            assert!(entry.at.start >= entry_behind && inside(&entry.at));
            entry_behind = entry.at.end;
            assert_eq!(slice(text, &entry.value_at), &*entry.written);
            assert_eq!(entry.value_at.end, entry.at.end);
            assert_eq!(entry.quoted, entry.written.starts_with('"') || entry.written.contains("#\""));
            for word in entry.key.iter().chain(&entry.annotation) {
                check_word(text, word);
                assert!(word.at.start >= entry.at.start && word.at.end <= entry.at.end);
            }
            if let (Scalar::Text(value), false) = (&entry.value, entry.quoted) {
                assert_eq!(value, &entry.written);
            }
        }
        match &node.block_at {
            Some(block) => {
                assert!(node.has_block && block.end == node.at.end && block.start >= entry_behind);
                slice(text, block);
                check_nodes(text, &node.children, block);
            }
            None => assert!(!node.has_block && node.children.is_empty()),
        }
    }
}

fn check_word(text: &str, word: &Word) {
    let written = slice(text, &word.at);
    assert!(!written.is_empty());
    if !written.starts_with(['"', '#']) {
        assert_eq!(written, &*word.text);
    }
}

/// A tree as one line, without spans: `name(arg key=val){children}`.
pub fn outline(nodes: &[Node]) -> String {
    nodes.iter().map(outline_of).collect::<Vec<_>>().join(" ")
}

fn outline_of(node: &Node) -> String {
    let annotation = |word: &Option<Word>| word.as_ref().map(|word| format!("<{}>", word.text)).unwrap_or_default();
    let entries: Vec<String> = node
        .entries
        .iter()
        .map(|entry| {
            let key = entry.key.as_ref().map(|key| format!("{}=", key.text)).unwrap_or_default();
            let value = match &entry.value {
                Scalar::Text(text) => format!("{text:?}"),
                Scalar::Whole(number) => format!("{number}"),
                Scalar::Real(number) => format!("{number:?}"),
                Scalar::Flag(flag) => format!("#{flag}"),
                Scalar::Null => "#null".to_owned(),
            };
            format!("{key}{}{value}", annotation(&entry.annotation))
        })
        .collect();
    let unread = match node.unread {
        spec::text::Unread::No => "",
        spec::text::Unread::Itself => "!",
        spec::text::Unread::Inside => "?",
    };
    let block = if node.has_block { format!("{{{}}}", outline(&node.children)) } else { String::new() };
    let entries = if entries.is_empty() { String::new() } else { format!("({})", entries.join(", ")) };
    format!("{}{}{unread}{entries}{block}", annotation(&node.annotation), node.name.text)
}

/// The same line made of what the kdl crate reads.
pub fn kdl_outline(nodes: &[kdl::KdlNode]) -> String {
    nodes
        .iter()
        .map(|node| {
            let annotation =
                |word: Option<&kdl::KdlIdentifier>| word.map(|word| format!("<{}>", word.value())).unwrap_or_default();
            let entries: Vec<String> = node
                .entries()
                .iter()
                .map(|entry| {
                    let key = entry.name().map(|key| format!("{}=", key.value())).unwrap_or_default();
                    let value = match entry.value() {
                        kdl::KdlValue::String(text) => format!("{text:?}"),
                        kdl::KdlValue::Integer(number) => format!("{number}"),
                        kdl::KdlValue::Float(number) => format!("{number:?}"),
                        kdl::KdlValue::Bool(flag) => format!("#{flag}"),
                        kdl::KdlValue::Null => "#null".to_owned(),
                    };
                    format!("{key}{}{value}", annotation(entry.ty()))
                })
                .collect();
            let entries = if entries.is_empty() { String::new() } else { format!("({})", entries.join(", ")) };
            let block =
                node.children().map(|children| format!("{{{}}}", kdl_outline(children.nodes()))).unwrap_or_default();
            format!("{}{}{entries}{block}", annotation(node.ty()), node.name().value())
        })
        .collect::<Vec<_>>()
        .join(" ")
}
