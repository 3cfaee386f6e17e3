//! What is read of a text, and what is said about it, case by case.

mod text_support;

use spec::text::{BlockCache, FaultKind, Lines, read, read_bytes};
use text_support::{check_spans, outline, slice};

/// A text, the tree that is read of it (`!` unread, `?` unread inside), and its faults: rule, span text, replacement.
type Case<'a> = (&'a str, &'a str, &'a [(&'a str, &'a str, Option<&'a str>)]);

fn check(cases: &[Case<'_>]) {
    for (text, tree, faults) in cases {
        let document = read(text, &mut BlockCache::new());
        check_spans(text, &document);
        assert_eq!(outline(&document.nodes), *tree, "{text}");
        let found: Vec<_> = document
            .faults
            .iter()
            .map(|fault| {
                (fault.kind.rule(), slice(text, &fault.at), fault.instead.as_ref().map(|mend| mend.text.as_str()))
            })
            .collect();
        assert_eq!(found, *faults, "{text}");
    }
}

#[test]
fn the_traps_of_the_language() {
    check(&[
        ("/- kdl-version 2\n\na 1", "a(1)", &[]),
        ("\u{FEFF}/- kdl-version 2\r\na 1\r\nb", "a(1) b", &[]),
        ("/- off { x }\non", "on", &[]),
        ("/-\n// why\noff 1\non", "on", &[]),
        ("a /- 5 6 /-{ z } { y; } /-{ u }", "a(6){y}", &[]),
        ("a /-\n x=1 y=2", "a(y=2)", &[]),
        ("a 1 /* x { */ \\ // on\n  2 b = 3", "a(1, 2, b=3)", &[]),
        ("a /* one /* two */ } */ 1\nb", "a(1) b", &[]),
        ("a \"}{ // \\\" ;\" // \"\nb", "a(\"}{ // \\\" ;\") b", &[]),
        ("a #\"raw \" \\ \"# ##\"x\"#y\"##", "a(\"raw \\\" \\\\ \", \"x\\\"#y\")", &[]),
        ("a \"\"\"\n  x {\n   y\n  \"\"\" z\nb", "a(\"x {\\n y\", \"z\") b", &[]),
        ("a #\"\"\"\n \\q\"\n \"\"\"#", "a(\"\\\\q\\\"\")", &[]),
        ("a;b; c { d; };;e", "a b c{d} e", &[]),
        ("a\u{85}b\u{2028}c\u{2029}d\u{0C}e\u{0B}f\rg\r\nh", "a b c d e f g h", &[]),
        ("(t)a (mm)3 x=(u)\"v\"", "<t>a(<mm>3, x=<u>\"v\")", &[]),
        ("a x=1 x=2", "a(x=1, x=2)", &[]),
        ("a{}", "a{}", &[]),
        ("a #true #null -1 0xff 1_000 1e3", "a(#true, #null, -1, 255, 1000, 1000.0)", &[]),
        ("", "", &[]),
        ("\u{FEFF}", "", &[]),
    ]);
}

#[test]
fn slips_within_a_line() {
    check(&[
        ("fuse rating=16A", "fuse!", &[("text/missing-quotes", "16A", Some("\"16 A\""))]),
        ("wire house size=2.5mm2", "wire!(\"house\")", &[("text/missing-quotes", "2.5mm2", Some("\"2.5 mm2\""))]),
        ("a x=2,5", "a!", &[("text/decimal-comma", "2,5", Some("2.5"))]),
        ("a x=2,5mm", "a!", &[("text/missing-quotes", "2,5mm", Some("\"2.5 mm\""))]),
        ("a x=1,500", "a!", &[("text/decimal-comma", "1,500", None)]),
        ("a x=90%", "a!", &[("text/missing-quotes", "90%", Some("\"90 %\""))]),
        ("a x=2026-03-14", "a!", &[("text/missing-quotes", "2026-03-14", Some("\"2026-03-14\""))]),
        ("a x=4/0AWG", "a!", &[("text/missing-quotes", "4/0AWG", Some("\"4/0AWG\""))]),
        ("a x=true", "a!", &[("text/old-syntax", "true", Some("yes"))]),
        ("a false", "a!", &[("text/old-syntax", "false", Some("no"))]),
        ("a null", "a!", &[("text/old-syntax", "null", None)]),
        ("a r\"x\"", "a!", &[("text/old-syntax", "r\"x\"", Some("#\"x\"#"))]),
        ("a r#\"x\"#", "a!", &[("text/old-syntax", "r#\"x\"#", Some("#\"x\"#"))]),
        ("/- kdl-version 1\na", "a", &[("text/old-syntax", "1", Some("2"))]),
        ("a size=", "a!", &[("text/missing-value", "size=", None)]),
        ("a b= c=\"1\"", "a!", &[("text/missing-value", "b=", None)]),
        ("a b==1", "a!", &[("text/stray-equals", "=", Some(""))]),
        ("size=\"5\"", "size!", &[("text/stray-equals", "=", Some(" "))]),
        ("a x=“18 W” y=“b”", "a!", &[("text/curly-quotes", "“", Some("\"18 W\""))]),
        ("a \"x\"\"y\"", "a!", &[("text/missing-blank", "\"y\"", Some(" "))]),
        ("a km/h", "a!", &[("text/forbidden-character", "/", Some("\"km/h\""))]),
        ("a d[0]", "a!", &[("text/forbidden-character", "[", Some("\"d[0]\""))]),
        ("a x\u{202E}y", "a!", &[("text/forbidden-character", "\u{202E}", None)]),
        ("a \"C:\\dir\"", "a!", &[("text/unknown-escape", "\\d", Some("\\\\d"))]),
        ("a \"\"\"x\"\"\"", "a!", &[("text/unreadable", "\"\"\"x\"\"\"", Some("\"x\""))]),
        ("a \"\"\"\n  x\n y\n  \"\"\"\nb", "a! b", &[("text/multi-line-indent", " ", None)]),
        ("a ) b", "a!", &[("text/unreadable", ")", None)]),
        ("a /-\n", "a!", &[("text/empty-switch-off", "/-", None)]),
        ("a { b 1 } c 2", "a{b(1)} c(2)", &[("text/missing-semicolon", "c", Some(";"))]),
        ("2 x\nb", "b", &[("text/missing-name", "2", None)]),
        ("{ x }\nb", "b", &[("text/missing-name", "{", None)]),
        ("a { 2 x\n b\n}", "a?{b}", &[("text/missing-name", "2", None)]),
    ]);
}

#[test]
fn what_has_no_end() {
    check(&[
        ("a x=\"12 V\nb", "a! b", &[("text/unclosed-string", "\"12 V", None)]),
        ("a \"n\" x=12 V\" y=\"1\" z=\"2\"\nb", "a!(\"n\") b", &[("text/unclosed-string", "\" y=\"", None)]),
        ("a house main\" x=h y=\"1\"\nb", "a! b", &[("text/unclosed-string", "\" x=h y=\"", None)]),
        ("a x=\"berth {\n  b\n}\nc", "a!{b} c", &[("text/unclosed-string", "\"berth", None)]),
        ("a { b x=\"12 mm }\nc", "a?{b!} c", &[("text/unclosed-string", "\"12 mm", None)]),
        ("a \"\"\"\nb", "a! b", &[("text/unclosed-string", "\"\"\"", None)]),
        ("a 1 /* x\nb", "a(1) b", &[("text/unclosed-comment", "/*", None)]),
        ("a {\n  b\nc {\n  d\n}\n", "a?{b} c{d}", &[("text/unclosed-block", "{", None)]),
        ("a {\n  b {\n    c\n}\nd", "a?{b?{c}} d", &[("text/unclosed-block", "{", None)]),
        ("a {\nb {\n  c\n}\n", "a?{} b{c}", &[("text/unclosed-block", "{", None)]),
        ("a {\n  b {\n", "a?{b?{}}", &[("text/unclosed-block", "{", None)]),
        ("a x\n  b\n  c\n}\nd", "a?(\"x\"){b c} d", &[("text/unopened-block", "a", Some(" {"))]),
        ("a {\n  b\n    c\n  }\n  d\n}\ne", "a?{b c d} e", &[("text/unopened-block", "}", None)]),
        ("a\n}\nb", "a b", &[("text/stray-closing-brace", "}", None)]),
    ]);
}

#[test]
fn a_hidden_block_is_told() {
    for (text, incomplete) in
        [("a\n", false), ("a 16A\n", false), ("2 x\n", true), ("[x] {\n a\n}\n", true), ("a { 2 x }\n", false)]
    {
        assert_eq!(read(text, &mut BlockCache::new()).incomplete, incomplete, "{text}");
    }
}

#[test]
fn files_that_are_no_text() {
    let cases: [(&[u8], u32, &str, &str); 3] = [
        (b"a \"caf\xE9\"\n", 6, "line 1", "Latin-1"),
        (b"a\nb \xFF", 4, "line 2", "Latin-1"),
        (b"\xFF\xFEa\0b\0", 0, "byte 1 (0xFF)", "UTF-16"),
    ];
    for (bytes, at, message, help) in cases {
        let fault = read_bytes(bytes).expect_err("not UTF-8");
        assert_eq!((fault.kind, fault.at.clone()), (FaultKind::NotUtf8, at..at + 1));
        assert!(fault.message.contains(message) && fault.help.contains(help), "{fault:?}");
    }
    assert_eq!(read_bytes("\u{FEFF}größe".as_bytes()), Ok("\u{FEFF}größe"));
}

#[test]
fn lines_and_columns() {
    let text = "a\r\nöb\rc\n\nd";
    let lines = Lines::new(text);
    assert_eq!(lines.count(), 5);
    for (offset, place) in
        [(0, (1, 1)), (1, (1, 2)), (3, (2, 1)), (5, (2, 2)), (7, (3, 1)), (9, (4, 1)), (10, (5, 1)), (11, (5, 2))]
    {
        assert_eq!(lines.line_and_column(text, offset), place, "offset {offset}");
        assert_eq!(lines.offset(text, place.0, place.1), Some(offset), "{place:?}");
    }
    assert_eq!(lines.line_and_column(text, 99), (5, 2));
    assert_eq!(lines.offset(text, 2, 99), Some(6));
    assert_eq!((lines.offset(text, 6, 1), lines.offset(text, 0, 1)), (None, None));
}
