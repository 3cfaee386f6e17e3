//! Names read back as they were written.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use spec::text::{BlockCache, Scalar, read, write_name};

const LETTERS: [&str; 24] = [
    "a", "B", "9", "-", ".", " ", "\"", "\\", "/", "{", "}", ";", "=", "#", "\u{301}", "ö", "漢", "🚐", "\t", "\u{A0}",
    "'", "(", "r", "\u{200D}",
];

#[test]
fn any_name_is_read_back_as_it_was_written() {
    let mut seed = 7_u64;
    let mut below = |bound: usize| {
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(seed >> 33).unwrap() % bound
    };
    let words = [
        "true",
        "unknown",
        "inf",
        "nan",
        "null",
        "-1",
        "1a",
        "größe",
        "e\u{301}te",
        "house 2",
        "dc-panel",
        "",
        "#true",
    ];
    let mut names: Vec<String> = words.map(str::to_owned).to_vec();
    for _ in 0..3000 {
        let length = below(7) + 1;
        names.push((0..length).map(|_| LETTERS[below(LETTERS.len())]).collect());
    }
    for name in names {
        let text = format!("battery {}\n", write_name(&name));
        let document = read(&text, &mut BlockCache::off());
        assert_eq!(document.faults, [], "{text:?}");
        assert_eq!(document.nodes[0].entries[0].value, Scalar::Text(name.as_str().into()), "{text:?}");
    }
    for (name, written) in
        [("größe", "größe"), ("unknown", "\"unknown\""), ("house 2", "\"house 2\""), ("2nd", "\"2nd\"")]
    {
        assert_eq!(write_name(name), written);
    }
}
