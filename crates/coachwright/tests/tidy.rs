//! `tidy`, by the program itself: written whole or not at all.
#![allow(clippy::expect_used, reason = "a test that cannot go on stops")]

mod workshop;

use workshop::Workshop;

const UNTIDY: &str = "build   Wren   {\n  stage draft // how far\n        basis eu\n}\n";
const BROKEN: &str = "build Wren {\n  stage   draft\n";

#[test]
fn a_text_is_laid_out_and_stays_so() {
    let shop = Workshop::new();
    shop.write("x.build.kdl", UNTIDY);
    let first = shop.run(&["tidy", "x.build.kdl"]);
    assert_eq!((first.status, first.out.as_str()), (0, "x.build.kdl is tidied.\n"), "{}", first.err);
    let tidied = shop.read("x.build.kdl");
    assert_ne!(tidied, UNTIDY);
    assert!(tidied.contains("// how far"), "{tidied}");
    let second = shop.run(&["tidy", "x.build.kdl"]);
    assert_eq!((second.status, second.out.as_str()), (0, ""));
    assert_eq!(shop.read("x.build.kdl"), tidied);
    assert_eq!(shop.names(), ["x.build.kdl"], "nothing is left behind");
}

#[test]
fn check_writes_nothing() {
    let shop = Workshop::new();
    shop.write("x.build.kdl", UNTIDY);
    let ran = shop.run(&["tidy", "--check", "x.build.kdl"]);
    assert_eq!(ran.status, 1);
    assert!(ran.out.contains("x.build.kdl is not tidy"), "{}", ran.out);
    assert_eq!(shop.read("x.build.kdl"), UNTIDY);
    assert_eq!(shop.run(&["tidy", "x.build.kdl"]).status, 0);
    assert_eq!(shop.run(&["tidy", "--check", "x.build.kdl"]).status, 0);
}

#[test]
fn a_text_that_cannot_be_read_stays_as_it_is_and_does_not_stop_the_others() {
    let shop = Workshop::new();
    shop.write("broken.build.kdl", BROKEN).write("x.build.kdl", UNTIDY);
    for arguments in [&["tidy", "--check"][..], &["tidy"]] {
        let ran = shop.run(&[arguments, &["broken.build.kdl", "x.build.kdl"]].concat());
        assert_eq!(ran.status, 2);
        assert!(ran.out.contains("broken.build.kdl cannot be read: 1 fault"), "{}", ran.out);
        assert!(ran.out.contains("broken.build.kdl:1:"), "{}", ran.out);
        assert!(ran.err.contains("broken.build.kdl was left as it is"), "{}", ran.err);
        assert_eq!(shop.read("broken.build.kdl"), BROKEN);
    }
    assert_ne!(shop.read("x.build.kdl"), UNTIDY);
}

#[cfg(unix)]
mod unix {
    use super::*;
    use std::os::unix::fs::{MetadataExt, PermissionsExt, symlink};
    use std::os::unix::process::CommandExt;

    fn mode(shop: &Workshop, name: &str) -> u32 {
        std::fs::metadata(shop.path(name)).expect("it is there").permissions().mode() & 0o7777
    }

    fn set_mode(shop: &Workshop, name: &str, mode: u32) {
        std::fs::set_permissions(shop.path(name), std::fs::Permissions::from_mode(mode)).expect("it may be set");
    }

    #[test]
    fn permissions_stay() {
        for kept in [0o600, 0o644, 0o664, 0o755] {
            let shop = Workshop::new();
            shop.write("x.build.kdl", UNTIDY);
            set_mode(&shop, "x.build.kdl", kept);
            assert_eq!(shop.run(&["tidy", "x.build.kdl"]).status, 0);
            assert_ne!(shop.read("x.build.kdl"), UNTIDY);
            assert_eq!(mode(&shop, "x.build.kdl"), kept, "{kept:o}");
        }
    }

    #[test]
    fn a_link_stays_a_link() {
        let shop = Workshop::new();
        shop.write("shared/x.build.kdl", UNTIDY);
        symlink("shared/x.build.kdl", shop.path("link.build.kdl")).expect("a link");
        assert_eq!(shop.run(&["tidy", "link.build.kdl"]).status, 0);
        let link = std::fs::symlink_metadata(shop.path("link.build.kdl")).expect("it is there");
        assert!(link.file_type().is_symlink());
        assert_ne!(shop.read("shared/x.build.kdl"), UNTIDY, "the file behind the link is tidied");
    }

    #[test]
    fn a_tidy_text_is_not_written_again() {
        let shop = Workshop::new();
        shop.write("x.build.kdl", UNTIDY);
        assert_eq!(shop.run(&["tidy", "x.build.kdl"]).status, 0);
        let number = |shop: &Workshop| std::fs::metadata(shop.path("x.build.kdl")).expect("it is there").ino();
        let before = number(&shop);
        assert_eq!(shop.run(&["tidy", "x.build.kdl"]).status, 0);
        assert_eq!(number(&shop), before);
    }

    #[test]
    fn a_file_that_may_not_be_written_stays_as_it_is() {
        let shop = Workshop::new();
        shop.write("x.build.kdl", UNTIDY);
        set_mode(&shop, "x.build.kdl", 0o444);
        let ran = shop.run(&["tidy", "x.build.kdl"]);
        assert_eq!(ran.status, 2);
        assert!(ran.err.contains("x.build.kdl cannot be written: it is write-protected"), "{}", ran.err);
        assert_eq!(shop.read("x.build.kdl"), UNTIDY);
    }

    #[test]
    fn in_a_read_only_folder_a_file_stays_as_it_is() {
        /// The user that owns nothing; who may write everywhere becomes this one for the test.
        const NOBODY: u32 = 65_534;
        let shop = Workshop::new();
        shop.write("locked/x.build.kdl", UNTIDY);
        // The program stands where everybody may run it. Copied by a process of its own: what is open here for writing, another
        // test's program would inherit as it starts, and then the copy could not be run.
        let copied = std::process::Command::new("cp").arg(workshop::PROGRAM).arg(shop.path("coachwright")).status();
        assert!(copied.expect("cp runs").success());
        set_mode(&shop, ".", 0o755);
        set_mode(&shop, "coachwright", 0o755);
        set_mode(&shop, "locked/x.build.kdl", 0o666);
        set_mode(&shop, "locked", 0o555);
        let mut command = std::process::Command::new(shop.path("coachwright"));
        command.args(["tidy", "locked/x.build.kdl"]).current_dir(shop.path("."));
        if std::fs::metadata(shop.path(".")).expect("it is there").uid() == 0 {
            command.uid(NOBODY).gid(NOBODY);
        }
        let ran = workshop::ran(command.output().expect("the program runs"));
        set_mode(&shop, "locked", 0o755);
        assert_eq!(ran.status, 2, "{}", ran.out);
        assert!(ran.err.contains("its folder may not be written to. It was left as it is."), "{}", ran.err);
        assert_eq!(shop.read("locked/x.build.kdl"), UNTIDY);
    }
}
