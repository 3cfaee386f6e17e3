//! Semantic tokens as an editor paints them.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use crate::support::{Client, text, url};
use serde_json::{Value, json};

/// A token where it stands.
#[derive(Clone, PartialEq, Eq, Debug)]
struct Token {
    line: usize,
    /// Start and end, as the client counts.
    start: usize,
    end: usize,
    kind: String,
    defines: bool,
}

/// A client with an encoding, and the names of the types that its server announces.
async fn client(encoding: &str) -> (Client, Vec<String>) {
    let mut client = Client::raw(crate::support::surroundings(), crate::support::Manners::Good);
    let capabilities = json!({ "general": { "positionEncodings": [encoding] } });
    let params = json!({ "processId": null, "rootUri": null, "capabilities": capabilities });
    let result = client.request("initialize", params).await;
    client.notify("initialized", json!({})).await;
    assert_eq!(result["capabilities"]["positionEncoding"], encoding);
    let legend = &result["capabilities"]["semanticTokensProvider"]["legend"];
    assert_eq!(legend["tokenModifiers"], json!(["definition"]));
    let types = legend["tokenTypes"].as_array().unwrap();
    (client, types.iter().map(|own| own.as_str().unwrap().to_owned()).collect())
}

fn decoded(data: &Value, types: &[String]) -> Vec<Token> {
    let numbers: Vec<usize> =
        data.as_array().unwrap().iter().map(|own| usize::try_from(own.as_u64().unwrap()).unwrap()).collect();
    let (mut line, mut start) = (0, 0);
    let mut tokens = Vec::new();
    for (number, token) in numbers.chunks(5).enumerate() {
        if token[0] > 0 || number == 0 {
            start = 0;
        }
        line += token[0];
        start += token[1];
        tokens.push(Token {
            line,
            start,
            end: start + token[2],
            kind: types[token[3]].clone(),
            defines: token[4] == 1,
        });
    }
    tokens
}

/// The lines of a text as the protocol knows them, in units of an encoding.
fn lines(text: &str, encoding: &str) -> Vec<Vec<u16>> {
    let lines = text.replace("\r\n", "\n").replace('\r', "\n");
    let units = |line: &str| match encoding {
        "utf-8" => line.bytes().map(u16::from).collect(),
        _ => line.encode_utf16().collect(),
    };
    lines.split('\n').map(units).collect()
}

/// A token as `text:type`, with `!` where it defines.
fn named(token: &Token, lines: &[Vec<u16>], encoding: &str) -> String {
    let units = &lines[token.line][token.start..token.end];
    let text = match encoding {
        "utf-8" => String::from_utf8(units.iter().map(|unit| u8::try_from(*unit).unwrap()).collect()).unwrap(),
        _ => String::from_utf16(units).unwrap(),
    };
    format!("{text}:{}{}", token.kind, if token.defines { "!" } else { "" })
}

async fn full(client: &mut Client, uri: &str) -> Value {
    client.request("textDocument/semanticTokens/full", json!({ "textDocument": { "uri": uri } })).await
}

#[tokio::test(flavor = "multi_thread")]
async fn every_word_is_what_the_vocabulary_says() {
    let cases = [
        (
            "a.build.kdl",
            "/- kdl-version 2\nbuild \"Größe 🚐\" purpose=\"a van\" { stage review; basis eu us; none gas; } // 🚐 now",
            vec![
                "/- kdl-version 2:comment",
                "build:keyword",
                "\"Größe 🚐\":variable!",
                "purpose:property",
                "\"a van\":string",
                "stage:property",
                "review:enumMember",
                "basis:property",
                "eu:enumMember",
                "us:enumMember",
                "none:keyword",
                "gas:enumMember",
                "// 🚐 now:comment",
            ],
        ),
        (
            "a.build.kdl",
            "panel \"🔋\" rating=\"100 A\" {\n  way 1 \"water pump\" fuse=\"7.5 A\" wire=unknown route=left /* größe\n mehr */ \n}",
            vec![
                "panel:keyword",
                "\"🔋\":variable!",
                "rating:property",
                "\"100 A\":number",
                "way:keyword",
                "1:number",
                "\"water pump\":variable",
                "fuse:property",
                "\"7.5 A\":number",
                "wire:property",
                "unknown:keyword",
                "route:property",
                "left:variable",
                "/* größe:comment",
                " mehr */:comment",
            ],
        ),
        (
            "p.parts.kdl",
            "battery \"bank\" like=other cover=yes {\n  restraint \"strap\" holds forward=\"20 g\"\n  from \"1, 2, 3 mm\"\n  like third\n}\ntogether breakfast hob kettle",
            vec![
                "battery:keyword",
                "\"bank\":variable!",
                "like:property",
                "other:variable",
                "cover:property",
                "yes:enumMember",
                "restraint:keyword",
                "\"strap\":string",
                "holds:keyword",
                "forward:property",
                "\"20 g\":number",
                "from:property",
                "\"1, 2, 3 mm\":number",
                "like:property",
                "third:variable",
                "together:keyword",
                "breakfast:variable!",
                "hob:variable",
                "kettle:variable",
            ],
        ),
        // A line that cannot be read has none, nor has a word that nobody knows.
        (
            "a.build.kdl",
            "fan vent current=\"3 A\nbatery x y=\"z\"\nlamp \"one\" power=\"5 W\"",
            vec!["\"z\":string", "lamp:keyword", "\"one\":variable!", "power:property", "\"5 W\":number"],
        ),
        (
            "x.rules.kdl",
            "rule \"x/größe\" warning about=run {\n  title \"T\"\n  value share any=\"3 %\" help=\"h\"\n  must #\"drop <= share\"# // why\n  tell #\"\"\"\n    one\n    \"\"\"#\n  source \"D\" mark=read\n}",
            vec![
                "rule:keyword",
                "\"x/größe\":variable!",
                "warning:enumMember",
                "about:property",
                "run:variable",
                "title:keyword",
                "\"T\":string",
                "value:keyword",
                "share:variable!",
                "any:property",
                "\"3 %\":number",
                "help:property",
                "\"h\":string",
                "must:keyword",
                "#\"drop <= share\"#:string",
                "// why:comment",
                "tell:keyword",
                "#\"\"\":string",
                "    one:string",
                "    \"\"\"#:string",
                "source:keyword",
                "\"D\":string",
                "mark:property",
                "read:enumMember",
            ],
        ),
    ];
    for encoding in ["utf-8", "utf-16"] {
        let (mut client, types) = client(encoding).await;
        for (number, (name, text, expected)) in cases.iter().enumerate() {
            let uri = format!("file:///tokens/{number}/{name}");
            client.open(&uri, text).await;
            let tokens = decoded(&full(&mut client, &uri).await["data"], &types);
            let lines = lines(text, encoding);
            let found: Vec<String> = tokens.iter().map(|token| named(token, &lines, encoding)).collect();
            assert_eq!(&found, expected, "{text}");
        }
        client.settle().await;
        client.finish().await;
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn a_range_has_the_tokens_of_its_lines() {
    let (mut client, types) = client("utf-16").await;
    let uri = url("bramble.build.kdl");
    client.open(&uri, &text("bramble.build.kdl")).await;
    let all = decoded(&full(&mut client, &uri).await["data"], &types);
    assert!(all.len() > 500);
    for (from, to) in [(0, 0), (10, 20), (40, 41), (500, 600)] {
        let range = json!({ "start": { "line": from, "character": 3 }, "end": { "line": to, "character": 0 } });
        let params = json!({ "textDocument": { "uri": uri }, "range": range });
        let some = client.request("textDocument/semanticTokens/range", params).await;
        let expected: Vec<Token> = all.iter().filter(|own| (from..=to).contains(&own.line)).cloned().collect();
        assert_eq!(decoded(&some["data"], &types), expected);
    }
    client.finish().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn tokens_follow_an_edit_and_other_files_have_none() {
    let (mut client, types) = client("utf-16").await;
    let uri = "file:///tokens/b.build.kdl";
    client.open(uri, "lamp one power=\"5 W\"\nlamp two power=\"6 W\"\n").await;
    assert_eq!(decoded(&full(&mut client, uri).await["data"], &types).len(), 8);
    let start = json!({ "line": 0, "character": 0 });
    client.edit(uri, 2, json!([{ "range": { "start": start, "end": start }, "text": "// größe 🚐\n" }])).await;
    let tokens = decoded(&full(&mut client, uri).await["data"], &types);
    assert_eq!((tokens.len(), tokens[0].kind.as_str(), tokens[1].line), (9, "comment", 1));
    client.open("file:///tokens/other.kdl", "lamp one").await;
    assert_eq!(full(&mut client, "file:///tokens/other.kdl").await, Value::Null);
    assert_eq!(full(&mut client, "file:///tokens/never-opened.build.kdl").await, Value::Null);
    client.finish().await;
}

/// A small generator with a fixed seed (SplitMix64), so that a failure can be repeated.
struct Dice(u64);

impl Dice {
    fn below(&mut self, limit: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        usize::try_from((mixed ^ (mixed >> 31)) % u64::try_from(limit).unwrap()).unwrap()
    }
}

const PIECES: &[&str] = &[
    "battery",
    "way",
    "panel ",
    "rule ",
    "circuit \"größe 🚐\" ",
    "\"",
    "\"\"\"",
    "\"\"\"\n",
    "#\"",
    "\"#",
    "#",
    "\\",
    "{",
    "}",
    ";",
    "=",
    "(",
    ")",
    " ",
    "\t",
    "\n",
    "\r\n",
    "\r",
    "\u{2028}",
    "\u{b}",
    "\u{feff}",
    "// größe",
    "//",
    "/*",
    "*/",
    "/-",
    "/",
    "🚐",
    "e\u{301}",
    "rating=\"5 A\"",
    " 1 ",
    "1.5",
    "like=x",
    "unknown",
    " fuse=\"3 A\"",
    "must #\"a < b\"#",
    "wire {\n size \"1 mm2\"\n}\n",
    "include \"a.kdl\"\n",
    "日本",
    "\u{0}",
];

#[tokio::test(flavor = "multi_thread")]
async fn whatever_is_written_tokens_are_in_order_apart_and_within_their_lines() {
    let shipped = [text("bramble.build.kdl"), text("juniper-faulty.build.kdl")];
    for encoding in ["utf-8", "utf-16"] {
        let (mut client, types) = client(encoding).await;
        let mut seen = 0;
        for (name, number) in [("r.build.kdl", 0_u64), ("r.parts.kdl", 1), ("r.rules.kdl", 2)] {
            let uri = format!("file:///tokens/{name}");
            client.open(&uri, "").await;
            for seed in 0..120_u64 {
                let mut dice = Dice(seed * 3 + number);
                let mut text = String::new();
                if seed % 4 == 0 {
                    // A piece of a whole build, cut anywhere.
                    let whole = &shipped[dice.below(shipped.len())];
                    let letters: Vec<char> = whole.chars().collect();
                    let start = dice.below(letters.len());
                    text.extend(letters[start..].iter().take(400));
                }
                for _ in 0..dice.below(40) {
                    text.push_str(PIECES[dice.below(PIECES.len())]);
                }
                client.replace(&uri, i64::try_from(seed).unwrap() + 2, &text).await;
                let tokens = decoded(&full(&mut client, &uri).await["data"], &types);
                let lines = lines(&text, encoding);
                seen += tokens.len();
                for token in &tokens {
                    assert!(token.line < lines.len(), "seed {seed}: {text:?}");
                    let line = &lines[token.line];
                    assert!(token.start < token.end && token.end <= line.len(), "seed {seed}: {token:?} {text:?}");
                    // It starts and ends between characters.
                    named(token, &lines, encoding);
                }
                for pair in tokens.windows(2) {
                    let order = (pair[0].line, pair[0].end) <= (pair[1].line, pair[1].start);
                    assert!(order, "seed {seed}: {pair:?} {text:?}");
                }
            }
        }
        assert!(seen > 1000, "the texts have tokens: {seen}");
        client.finish().await;
    }
}
