//! What an editor shows after any edits is what a review of the same text finds from nothing.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use crate::support::{Client, builds, surroundings, text, url};
use language_server::position::{Encoding, Lines};
use language_server::shown_of;
use serde_json::json;
use std::ops::Range;
use tower_lsp::lsp_types::Url;

/// How many edits are made in all, unless `COACHWRIGHT_EDITS` says otherwise.
const EDITS: usize = 2_000;
/// The most edits that are sent before the findings are compared.
const BURST: usize = 4;
/// The edits after which a build starts from its own text again: broken texts grow dull.
const FRESH: usize = 60;

/// What is put in besides copies of the text itself.
const PIECES: [&str; 26] = [
    "\"",
    "{",
    "}",
    "\n",
    "\r\n",
    " ",
    ";",
    "=",
    "/-",
    "//",
    "/*",
    "*/",
    "#\"",
    "größe",
    "e\u{301}",
    "🚐",
    "\u{FEFF}",
    "\t",
    "unknown",
    "\nnone gas\n",
    " mass=\"1 kg\"",
    "2.5 mm2",
    "\nbattery",
    "\ncircuit \"x\" {",
    "\\",
    "0",
];

/// A plain sequence of numbers that looks random (Knuth's multiplier of 64 bits).
struct Dice(u64);

impl Dice {
    fn below(&mut self, bound: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.0 >> 33).unwrap() % bound.max(1)
    }

    /// A stretch of a text, at most so long, at the bounds of characters.
    fn stretch(&mut self, text: &str, most: usize) -> Range<usize> {
        let start = border(text, self.below(text.len() + 1));
        let end = border(text, (start + self.below(most + 1)).min(text.len()));
        start..end.max(start)
    }
}

/// The last place at or before this one that an editor can name: no editor can be between the two characters of one line end.
fn border(text: &str, at: usize) -> usize {
    let at = text.floor_char_boundary(at);
    let within_line_end = text[..at].ends_with('\r') && text[at..].starts_with('\n');
    at - usize::from(within_line_end)
}

/// One open text of a session, with what undoing needs.
struct Page {
    uri: String,
    text: String,
    version: i64,
    undo: Vec<String>,
}

impl Page {
    /// An edit by chance: its place and its text.
    fn edit(&mut self, dice: &mut Dice) -> (Range<usize>, String) {
        let text = &self.text;
        match dice.below(10) {
            0..3 => {
                let at = dice.stretch(text, 0);
                (at, PIECES[dice.below(PIECES.len())].to_owned())
            }
            3..5 => (dice.stretch(text, 12), String::new()),
            5 => (dice.stretch(text, 200), String::new()),
            // A line is taken out, or copied to another place: what builders do most.
            6 => {
                let line = lines_of(text, dice);
                (line, String::new())
            }
            7 => {
                let line = lines_of(text, dice);
                let copied = text[line].to_owned();
                let start = lines_of(text, dice).start;
                (start..start, copied)
            }
            _ => match self.undo.pop() {
                Some(before) => (0..text.len(), before),
                None => (0..0, "\n".to_owned()),
            },
        }
    }
}

/// The bytes of a line by chance, with its end.
fn lines_of(text: &str, dice: &mut Dice) -> Range<usize> {
    let at = text.floor_char_boundary(dice.below(text.len() + 1));
    let start = text[..at].rfind('\n').map_or(0, |at| at + 1);
    let end = text[at..].find('\n').map_or(text.len(), |length| at + length + 1);
    start..end
}

/// Holds what is shown of the build and its files against a review from nothing.
fn compare(client: &Client, pages: &[Page], encoding: Encoding, told: &str) {
    let open: Vec<(Url, &str)> =
        pages.iter().map(|page| (Url::parse(&page.uri).unwrap(), page.text.as_str())).collect();
    for (file, wanted) in &shown_of(&open, &surroundings(), encoding) {
        let shown = client.shown.get(file.as_str()).cloned().unwrap_or_else(|| json!([]));
        assert_eq!(shown, serde_json::to_value(wanted).unwrap(), "{told}: {file}\n{}", pages[0].text);
    }
}

/// One session: a build and, if it is among the files, the parts that it includes, both open.
async fn session(names: Vec<String>, seed: u64, edits: usize, encoding: Encoding) {
    let capabilities = match encoding {
        Encoding::Utf8 => json!({ "general": { "positionEncodings": ["utf-8"] } }),
        Encoding::Utf16 => json!({}),
    };
    let mut client = Client::with(capabilities).await;
    let mut dice = Dice(seed);
    let mut pages: Vec<Page> = Vec::new();
    for name in &names {
        client.open(&url(name), &text(name)).await;
        pages.push(Page { uri: url(name), text: text(name), version: 1, undo: Vec::new() });
    }
    client.settle().await;
    let mut made = 0;
    while made < edits {
        for _ in 0..=dice.below(BURST) {
            // Mostly the build; now and then what it includes.
            let which = if dice.below(5) == 0 { dice.below(pages.len()) } else { 0 };
            let page = &mut pages[which];
            page.version += 1;
            let change = if made % FRESH == FRESH - 1 {
                page.text = text(&names[which]);
                page.undo.clear();
                json!({ "text": page.text })
            } else {
                let (bytes, new) = page.edit(&mut dice);
                let range = Lines::of(&page.text).range(&page.text, &bytes, encoding);
                page.undo.push(page.text.clone());
                page.text.replace_range(bytes, &new);
                json!({ "range": range, "text": new })
            };
            let (uri, version) = (page.uri.clone(), page.version);
            client.edit(&uri, version, json!([change])).await;
            made += 1;
        }
        client.settle().await;
        compare(&client, &pages, encoding, &format!("{names:?}, seed {seed}, after {made} edits"));
    }
    // A text that is closed leaves nothing behind.
    for page in &pages {
        client.close(&page.uri).await;
    }
    client.settle().await;
    for page in &pages {
        assert_eq!(client.found(&page.uri), []);
    }
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn after_any_edits_the_same_is_shown_as_a_review_from_nothing_finds() {
    let edits = std::env::var("COACHWRIGHT_EDITS").map_or(EDITS, |edits| edits.parse().unwrap());
    let mut names: Vec<String> = std::fs::read_dir(builds())
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .filter(|name| name.ends_with(".build.kdl"))
        .collect();
    names.sort();
    assert!(names.len() >= 6, "{names:?}");
    let share = edits.div_ceil(names.len());
    let mut sessions = tokio::task::JoinSet::new();
    for (seed, name) in (1..).zip(names) {
        let included = text(&name).split('"').find(|word| word.ends_with(".parts.kdl")).map(str::to_owned);
        let encoding = if seed % 3 == 0 { Encoding::Utf8 } else { Encoding::Utf16 };
        sessions.spawn(session(std::iter::once(name).chain(included).collect(), seed, share, encoding));
    }
    while let Some(session) = sessions.join_next().await {
        session.unwrap();
    }
}
