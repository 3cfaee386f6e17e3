//! Tidying: the layout changes, nothing else does.

mod text_support;

use spec::text::{BlockCache, read, tidy};
use text_support::{Dice, ILLUSTRATION, outline, valid_text, wild_text};

#[test]
fn layout() {
    for (text, tidied) in [
        ("", ""),
        ("\n\n  \n", ""),
        ("a", "a\n"),
        ("a{\nb  1   x=2  \n}", "a {\n    b  1   x=2\n}\n"),
        ("\n\n\na\n\n\n\nb\n\n\n", "a\n\nb\n"),
        ("a   {\n\tb {\n  c\n      }\n }\n", "a {\n    b {\n        c\n    }\n}\n"),
        ("a 1      // one  \n  // two\nb", "a 1      // one\n// two\nb\n"),
        ("a\r\nb {\n c\n}\n", "a\r\nb {\r\n    c\r\n}\r\n"),
        ("\u{FEFF}  a\n", "\u{FEFF}a\n"),
        ("a {\n/* x\n y */\n/- off   1\n}\n", "a {\n    /* x\n y */\n    /- off   1\n}\n"),
        ("a {\n b \"\"\"\n   x  \n\n  y\n  \"\"\"   c\n}\n", "a {\n    b \"\"\"\n   x  \n\n  y\n  \"\"\"   c\n}\n"),
        ("a {\nb 1 \\ // on\n2\n}\n", "a {\n    b 1 \\ // on\n        2\n}\n"),
        ("a \\\n\n  b\n", "a \\\n\nb\n"),
        ("branch { pipe size=\"1\"; tap; }\n", "branch { pipe size=\"1\"; tap; }\n"),
        ("a /-{ b }\n", "a /-{ b }\n"),
    ] {
        assert_eq!(tidy(text).as_deref(), Ok(tidied), "{text:?}");
    }
}

#[test]
fn a_faulty_text_is_left_alone_and_its_faults_told() {
    let faults = tidy("a 16A\n").expect_err("a fault");
    assert_eq!(faults.len(), 1);
}

#[test]
fn the_illustration_is_tidy() {
    assert_eq!(tidy(ILLUSTRATION).as_deref(), Ok(ILLUSTRATION));
}

/// What is left of a text without its blanks and line ends.
fn ink(text: &str) -> String {
    text.chars().filter(|c| !c.is_whitespace()).collect()
}

#[test]
fn nothing_but_the_layout_changes_and_a_second_time_nothing_does() {
    let mut changed = 0;
    for seed in 0..3000 {
        let mut dice = Dice::new(seed);
        let text = if seed % 3 == 0 { wild_text(&mut dice, 6) } else { valid_text(&mut dice, 5, 3) };
        let Ok(tidied) = tidy(&text) else { continue };
        changed += usize::from(tidied != text);
        assert_eq!(ink(&tidied), ink(&text), "seed {seed}: {text:?}");
        let tree = |text: &str| outline(&read(text, &mut BlockCache::new()).nodes);
        assert_eq!(tree(&tidied), tree(&text), "seed {seed}: {text:?}");
        assert_eq!(tidy(&tidied).as_deref(), Ok(tidied.as_str()), "seed {seed}: {text:?}");
    }
    assert!(changed > 1000, "{changed} texts changed");
}
