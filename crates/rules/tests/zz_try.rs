#![allow(missing_docs, clippy::all, clippy::unwrap_used, clippy::expect_used, clippy::print_stdout)]
use rules::pack::{Packs, compile};
use rules::prove::run_beside;
use rules::review::{ReviewOptions, Today, review};
use spec::{LoadFault, Loaded, Loader};
use std::path::{Path, PathBuf};
struct Folder;
fn here(p: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(p)
}
impl Loader for Folder {
    fn load(&self, _: Option<&str>, name: &str) -> Result<Loaded, LoadFault> {
        let text = std::fs::read_to_string(here("../../tests/builds").join(name))
            .map_err(|f| LoadFault::Refused(f.to_string()))?;
        Ok(Loaded { name: name.to_owned(), text })
    }
}
fn gather(folder: &Path, files: &mut Vec<PathBuf>) {
    for e in std::fs::read_dir(folder).unwrap() {
        let p = e.unwrap().path();
        if p.is_dir() {
            gather(&p, files)
        } else if p.to_string_lossy().ends_with(".rules.kdl") {
            files.push(p)
        }
    }
    files.sort();
}
#[test]
fn try_it() {
    let mut paths = Vec::new();
    gather(&here("../../rules"), &mut paths);
    let files: Vec<(String, String)> = paths
        .iter()
        .map(|p| {
            (
                p.to_string_lossy().replace("/tmp/wt/network/crates/rules/../../", ""),
                std::fs::read_to_string(p).unwrap(),
            )
        })
        .collect();
    let borrowed: Vec<(&str, &str)> = files.iter().map(|(a, b)| (a.as_str(), b.as_str())).collect();
    let packs = match compile(&borrowed) {
        Ok(p) => p,
        Err(f) => {
            for f in f {
                let t = files.iter().find(|(n, _)| *n == f.file).map(|x| x.1.as_str()).unwrap_or("");
                println!("COMPILE {} {}", f.file, f.show(t));
            }
            panic!()
        }
    };
    let which = std::env::var("PROVE").unwrap_or_default();
    for w in which.split_whitespace() {
        let chosen: Vec<(&str, &str)> = borrowed.iter().copied().filter(|(n, _)| n.contains(w)).collect();
        let names: Vec<String> =
            chosen.iter().flat_map(|(n, t)| rules::pack::read_sheet(n, t).0.names).map(|(n, _)| n).collect();
        let beside = Packs { rules: packs.rules.iter().filter(|r| !names.contains(&r.name)).cloned().collect() };
        let proof = run_beside(&chosen, &beside, std::env::var("HARD").is_ok());
        println!("PROOF {w}: {} % faults {}", proof.percent(), proof.faults.len());
        for f in &proof.faults {
            let t = chosen.iter().find(|(n, _)| *n == f.file).map(|x| x.1).unwrap_or("");
            println!("  {}", f.show(t));
        }
        for r in &proof.rules {
            println!("  {} {}/{} sides {:?}", r.name, r.right, r.examples, r.sides());
        }
    }
    if std::env::var("BUILDS").is_ok() {
        let only = std::env::var("BUILDS").unwrap();
        for e in {
            let mut v: Vec<_> = std::fs::read_dir(here("../../tests/builds"))
                .unwrap()
                .map(|e| e.unwrap().file_name().into_string().unwrap())
                .collect();
            v.sort();
            v
        } {
            let Some(name) = e.strip_suffix(".build.kdl") else { continue };
            if only != "all" && !only.split(' ').any(|o| o == name) {
                continue;
            }
            let t = std::time::Instant::now();
            let r = review(
                &Folder,
                &e,
                &packs,
                ReviewOptions { today: Today::Is(jiff::civil::date(2026, 11, 25)), draft: false },
            );
            let mut lines: Vec<(String, String)> = r
                .failed
                .iter()
                .flat_map(|f| std::iter::once((f, "")).chain(f.follow.iter().map(|x| (x, "  (follows)"))))
                .map(|(f, m)| (format!("{} {} {}", f.signal.word(), f.rule, f.part), format!("{}{m}", f.message)))
                .collect();
            lines.sort();
            let exp: Vec<String> =
                std::fs::read_to_string(here("../../tests/builds").join(format!("{name}.expected.txt")))
                    .unwrap_or_default()
                    .lines()
                    .filter(|l| !l.starts_with('#') && !l.trim().is_empty())
                    .map(|l| l.split_whitespace().collect::<Vec<_>>().join(" "))
                    .collect();
            println!(
                "BUILD {name} {:?} failed {} top {} undecided {} held {}",
                t.elapsed(),
                lines.len(),
                r.failed.len(),
                r.undecided.len(),
                r.counts.held
            );
            for (l, m) in &lines {
                if !exp.contains(l) {
                    println!("  NEW {l}\n       {m}");
                }
            }
            for l in &exp {
                if !lines.iter().any(|x| x.0 == *l) {
                    println!("  GONE {l}");
                }
            }
            for f in &r.undecided {
                println!("  OPEN {} {} {} {}", f.signal.word(), f.rule, f.part, f.message);
            }
        }
    }
}
