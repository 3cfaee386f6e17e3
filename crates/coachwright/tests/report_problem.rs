//! `report-problem`, by the program itself.
#![allow(clippy::expect_used, reason = "a test that cannot go on stops")]

mod workshop;

use workshop::Workshop;

const BUILD: &str = "build Wren {\n    stage draft\n    basis eu\n    include \"secret.parts.kdl\"\n}\n\
                     // my address is Elm Street 7\n\
                     battery \"Anna's battery\" chemistry=LFP voltage=\"25.6 V\" capacity=\"314 Ah\"\n\
                     circuit main from=\"Anna's battery\" to=lamp { wire size=\"25 mm2\" one-way=\"2.75 m\"; }\n\
                     lamp lamp like=\"Otto's lamp\"\n";

#[test]
fn a_report_says_what_is_needed_and_nothing_private() {
    let shop = Workshop::new();
    shop.write("elm.build.kdl", BUILD).write("secret.parts.kdl", "lamp \"Otto's lamp\" power=\"18 W\"\n");
    let ran = shop.run(&["report-problem", "elm.build.kdl", "--to", "problem.txt"]);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""), "{}", ran.out);
    let report = shop.read("problem.txt");
    assert!(ran.out.starts_with(&report), "what is written is shown: {}", ran.out);
    for words in ["nothing was sent anywhere", "Read it before you send it", "problem.txt"] {
        assert!(ran.out.contains(words), "{words}: {}", ran.out);
    }
    let version = shop.run(&["--version"]).out;
    for words in [
        version.lines().next().unwrap_or_default(),
        std::env::consts::OS,
        std::env::consts::ARCH,
        "  any: ",
        "  au-nz: ",
        "  protection/none-at-source: ",
        "File 1, blanked",
        "File 2, blanked",
        "battery name-2 chemistry=LFP voltage=\"99.9 V\" capacity=\"999 Ah\"",
        "from=name-2",
        "wire size=",
    ] {
        assert!(report.contains(words), "{words}: {report}");
    }
    for private in ["Wren", "Anna", "Otto", "Elm", "elm", "secret", "314", "2.75", "25.6", "18 W"] {
        assert!(!report.contains(private), "{private}: {report}");
    }
    // The same name is the same word in both files.
    let like = report.split("like=").nth(1).and_then(|rest| rest.lines().next()).expect("a likeness").trim().to_owned();
    assert!(report.contains(&format!("lamp {like} power=")), "{like}: {report}");
}

#[test]
fn nothing_is_overwritten() {
    let shop = Workshop::new();
    shop.write("elm.build.kdl", BUILD);
    for (arguments, told) in [
        (&["elm.build.kdl", "--to", "elm.build.kdl"][..], "there is such a file already"),
        (&["elm.build.kdl", "--to", "nowhere/problem.txt"], "its folder does not exist"),
        (&["missing.build.kdl", "--to", "problem.txt"], "there is no such file"),
        (&["shop.rules.kdl", "--to", "problem.txt"], "is a rule pack"),
    ] {
        let ran = shop.run(&[&["report-problem"], arguments].concat());
        assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{arguments:?}");
        assert!(ran.err.contains(told), "{arguments:?}: {}", ran.err);
    }
    assert_eq!((shop.names(), shop.read("elm.build.kdl")), (vec![String::from("elm.build.kdl")], BUILD.to_owned()));
    // Without a specification there is still what the program is.
    let ran = shop.run(&["report-problem", "--to", "problem.txt"]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    assert!(shop.read("problem.txt").starts_with("A problem with coachwright "));
}
