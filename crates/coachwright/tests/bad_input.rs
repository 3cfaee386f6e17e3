//! Whatever stands in a file: a finding or a message with a place and a remedy, and never a crash.
#![allow(clippy::expect_used, reason = "a test that cannot go on stops")]

mod workshop;

use workshop::{QUIET, Ran, Workshop};

/// Both commands that read a text get along with it: `review` says what is wrong with status 1 or 2, and `tidy` changes
/// nothing that it cannot read.
fn assert_told(name: &str, text: &[u8], words: &str) {
    let shop = Workshop::new();
    shop.write("x.build.kdl", text);
    let Ran { status, out, err } = shop.run(&["review", "x.build.kdl", "--hold-at", "notice"]);
    assert!(status == 1 || status == 2, "{name}: status {status}\n{out}{err}");
    let told = out + &err;
    assert!(told.contains("x.build.kdl"), "{name} says where: {told}");
    assert!(told.to_lowercase().contains(words), "{name} says what ({words}): {told}");
    let tidied = shop.run(&["tidy", "x.build.kdl"]);
    if tidied.status != 0 {
        assert_eq!(tidied.status, 2, "{name}");
        assert!(
            std::fs::read(shop.path("x.build.kdl")).expect("the file is there") == text,
            "{name} is left as it was"
        );
    }
    assert_eq!(shop.names(), ["x.build.kdl"], "nothing is left behind");
}

#[test]
fn texts_that_cannot_be_read() {
    let deep = "a {".repeat(20_000);
    let balanced = format!("{}{}", "a {\n".repeat(20_000), "}\n".repeat(20_000));
    for (name, text, words) in [
        ("an empty file", "", "describes nothing"),
        ("an unclosed brace", "build Wren {\n    stage draft\n", "brace"),
        ("an unclosed string", "build \"Wren {\n    stage draft\n}\n", "quotation"),
        ("deep nesting", deep.as_str(), "deep"),
        ("deep nesting that is closed", balanced.as_str(), "deep"),
    ] {
        assert_told(name, text.as_bytes(), words);
    }
}

#[test]
fn files_that_are_no_text() {
    assert_told("Latin-1", b"build Wren { note \"gr\xf6\xdfe\"; }\n", "utf-8");
    assert_told("UTF-16", b"\xff\xfeb\0u\0i\0l\0d\0", "utf-16");
    assert_told("50 MB", &vec![b' '; 50_000_000], "5 mb");
}

#[test]
fn texts_that_contradict_themselves() {
    for (name, more, words) in [
        ("duplicate names", "battery house\nbattery house\n", "house"),
        ("like= in a circle", "battery a like=b\nbattery b like=a\n", "circle"),
        ("a negative length", "vehicle class=van {\n    length \"-6 m\"\n}\n", "length"),
        ("a number without an end", "battery house capacity=\"1e400 Ah\"\n", "1e400"),
        (
            "a wire of no length",
            "battery house\nlamp l\ncircuit c from=house to=l { wire one-way=\"0 m\"; }\n",
            "one-way",
        ),
        (
            "a fuse that carries nothing",
            "battery house\nlamp l\ncircuit c from=house to=l { fuse rating=\"0 A\"; }\n",
            "cannot be 0 a",
        ),
        ("two lengths", "lamp l\ncircuit c to=l { wire one-way=\"2 m\" loop=\"3 m\"; }\n", "out and back"),
        ("a circuit that ends nowhere", "battery house\ncircuit c from=house\n", "ends nowhere"),
        ("a circuit to itself", "battery house\ncircuit c from=house to=house\n", "ends where it begins"),
        ("a way number twice", "lamp a\nlamp b\npanel p { way 1 a; way 1 b; }\n", "a way 1 already"),
        (
            "a ring",
            "busbar a\nbusbar b\nbusbar c\ncircuit x from=a to=b\ncircuit y from=b to=c\ncircuit z from=c to=a\n",
            "closes a ring",
        ),
        ("not a number", "battery house capacity=\"NaN Ah\"\n", "nan"),
        ("not a number, as KDL writes it", "battery house capacity=#nan\n", "capacity"),
        ("an include that is not there", "include \"missing.build.kdl\"\n", "missing.build.kdl"),
        ("an include of something else", "include \"/etc/hostname\"\n", "no specification"),
        ("an include of itself", "include \"x.build.kdl\"\n", "includes itself"),
    ] {
        assert_told(name, format!("{QUIET}{more}").as_bytes(), words);
    }
}

#[test]
fn an_include_of_a_folder_says_so() {
    let shop = Workshop::new();
    shop.write("x.build.kdl", format!("{QUIET}include \"shop.parts.kdl\"\n")).write("shop.parts.kdl/inside", "");
    let ran = shop.run(&["review", "x.build.kdl"]);
    assert_eq!(ran.status, 1, "{}{}", ran.out, ran.err);
    assert!(ran.out.contains("folder"), "{}", ran.out);
}

#[test]
fn an_include_that_is_too_large_is_told_as_such() {
    let shop = Workshop::new();
    shop.write("x.build.kdl", format!("{QUIET}include \"shop.parts.kdl\"\n"))
        .write("shop.parts.kdl", vec![b' '; 6_000_000]);
    let ran = shop.run(&["review", "x.build.kdl"]);
    assert_eq!(ran.status, 1, "{}{}", ran.out, ran.err);
    assert!(ran.out.contains("text/too-large") && !ran.out.contains("text/include-missing"), "{}", ran.out);
    assert!(ran.out.contains("6 MB"), "{}", ran.out);
}

#[test]
fn includes_in_a_circle_are_seen_through_links() {
    let shop = Workshop::new();
    shop.write("x.build.kdl", format!("{QUIET}include \"y.build.kdl\"\n"))
        .write("y.build.kdl", "include \"z/x.build.kdl\"\n");
    #[cfg(unix)]
    std::os::unix::fs::symlink(".", shop.path("z")).expect("a link");
    let ran = shop.run(&["review", "x.build.kdl", "--hold-at", "notice"]);
    assert_eq!(ran.status, 1, "{}{}", ran.out, ran.err);
    assert!(ran.out.contains("y.build.kdl:1:"), "{}", ran.out);
}

#[test]
fn things_that_are_no_files() {
    let shop = Workshop::new();
    shop.write("folder/inside", "");
    for (command, name, words) in [
        ("review", "folder", "folder holds no file that ends in .build.kdl"),
        ("review", "missing", "missing cannot be read: there is no such file"),
        ("tidy", "folder", "folder cannot be read: it is a folder; name a file in it"),
        ("tidy", "missing", "missing cannot be read: there is no such file"),
    ] {
        let ran = shop.run(&[command, name]);
        assert_eq!(ran.status, 2, "{command} {name}");
        assert!(ran.err.contains(words), "{command} {name}: {}", ran.err);
    }
    #[cfg(unix)]
    {
        let pipe = std::process::Command::new("mkfifo").arg(shop.path("pipe")).status().expect("mkfifo runs");
        assert!(pipe.success());
        for name in ["pipe", "/dev/zero"] {
            let ran = shop.run(&["review", name]);
            assert_eq!(ran.status, 2, "{name}");
            assert!(ran.err.contains("it is a pipe or a device, not a file"), "{name}: {}", ran.err);
        }
    }
}

#[test]
fn names_that_steer_a_terminal_are_shown_as_escapes() {
    let shop = Workshop::new();
    let name = "\u{1b}[31m\u{202e}.build.kdl";
    shop.write(
        name,
        format!("{QUIET}battery \"\\u{{1b}}]0;title\\u{{7}}\" voltage=\"12\"\nbattery \"\u{202e}x\" voltage=12\n"),
    );
    for form in ["terminal", "plain"] {
        let ran = shop.run(&["review", name, "missing\u{1b}[2J", "--as", form]);
        for text in [&ran.out, &ran.err] {
            assert!(!text.chars().any(|c| c.is_control() && c != '\n' || c == '\u{202e}'), "{form}: {text:?}");
        }
        assert!(ran.out.contains("\\u{1b}[31m\\u{202e}.build.kdl"), "{}", ran.out);
        assert!(ran.err.contains("missing\\u{1b}[2J cannot be read"), "{}", ran.err);
    }
}

#[test]
fn bad_command_lines_are_refused() {
    let shop = Workshop::new();
    for arguments in [
        &["review"][..],
        &["review", "x", "--hold-at", "catastrophe"],
        &["review", "x", "--as", "braille"],
        &["tidy"],
        &["working", "x"],
        &["weld"],
        &[],
    ] {
        assert_eq!(shop.run(arguments).status, 2, "{arguments:?}");
    }
    assert_eq!(shop.run(&["--help"]).status, 0);
}
