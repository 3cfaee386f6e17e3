//! What holds for any text: nothing panics, spans are right, and what the kdl crate reads is read the same.

mod text_support;

use kdl::KdlDocument;
use spec::text::{BlockCache, Document, read, tidy};
use text_support::{Dice, ILLUSTRATION, check_spans, kdl_outline, outline, valid_text, wild_text};

fn fresh(text: &str) -> Document {
    read(text, &mut BlockCache::new())
}

#[test]
fn the_illustration_reads_like_the_parser_reads_it_whole() {
    let document = fresh(ILLUSTRATION);
    assert_eq!(document.faults, []);
    assert!(!document.incomplete);
    check_spans(ILLUSTRATION, &document);
    let whole = KdlDocument::parse(ILLUSTRATION).expect("the illustration is valid");
    assert_eq!(outline(&document.nodes), kdl_outline(whole.nodes()));
}

#[test]
fn valid_texts_read_like_the_parser_reads_them_whole() {
    let mut parsed = 0;
    for seed in 0..1500 {
        let text = valid_text(&mut Dice::new(seed), 6, 3);
        let document = fresh(&text);
        check_spans(&text, &document);
        assert_eq!(document.faults, [], "seed {seed}: {text}");
        if let Ok(whole) = KdlDocument::parse(&text) {
            parsed += 1;
            assert_eq!(outline(&document.nodes), kdl_outline(whole.nodes()), "seed {seed}: {text}");
        }
    }
    // The parser is not sure of every `/-`; nearly all texts must have been compared.
    assert!(parsed > 1000, "{parsed} texts compared");
}

#[test]
fn wild_texts_never_panic_and_keep_their_spans() {
    for seed in 0..4000 {
        let mut dice = Dice::new(seed);
        let pieces = 1 + dice.below(60);
        let text = wild_text(&mut dice, pieces);
        let document = fresh(&text);
        check_spans(&text, &document);
        if document.faults.is_empty() {
            assert!(!document.incomplete, "seed {seed}: {text:?}");
        }
        assert_eq!(tidy(&text).is_ok(), document.faults.is_empty(), "seed {seed}");
    }
}

#[test]
fn what_the_parser_accepts_has_no_fault() {
    let mut accepted = 0;
    for seed in 0..8000 {
        let mut dice = Dice::new(seed);
        let pieces = 1 + dice.below(9);
        let text = wild_text(&mut dice, pieces);
        // Typographic quotation marks may begin a word in KDL; in a specification they are always a slip.
        if text.contains(['“', '”']) {
            continue;
        }
        let Ok(whole) = KdlDocument::parse(&text) else {
            continue;
        };
        accepted += 1;
        let document = fresh(&text);
        assert_eq!(document.faults, [], "seed {seed}: {text:?}");
        assert_eq!(outline(&document.nodes), kdl_outline(whole.nodes()), "seed {seed}: {text:?}");
    }
    assert!(accepted > 300, "{accepted} texts compared");
}

#[test]
fn a_cache_never_changes_what_is_read() {
    let mut cache = BlockCache::new();
    let mut text = ILLUSTRATION.to_owned();
    let mut dice = Dice::new(7);
    for step in 0..300 {
        let at = text.floor_char_boundary(dice.below(text.len()));
        if dice.below(3) == 0 {
            text.insert_str(at, dice.of(&["\"", "{", "}", "x", " ", "\n", "/*", "*/", "/-", "zone a\n"]));
        } else {
            let end = text.ceil_char_boundary((at + 1 + dice.below(6)).min(text.len()));
            text.replace_range(at..end, "");
        }
        if step % 40 == 39 {
            text = ILLUSTRATION.to_owned();
        }
        assert_eq!(read(&text, &mut cache), fresh(&text), "step {step}");
    }
}

#[test]
fn the_cache_holds_the_blocks_of_the_last_reading_only() {
    let mut cache = BlockCache::new();
    read("a 1\nb 2\nc 3\n", &mut cache);
    assert_eq!(cache.len(), 3);
    read("a 1\n", &mut cache);
    assert_eq!(cache.len(), 1);
    let mut off = BlockCache::off();
    read("a 1\n", &mut off);
    assert!(off.is_empty());
}
