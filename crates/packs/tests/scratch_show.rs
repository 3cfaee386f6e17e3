#![allow(warnings)]
use rules::review::{ReviewOptions, Today, review};
use spec::{LoadFault, Loaded, Loader};
use std::path::{Path, PathBuf};
struct Folder;
impl Loader for Folder {
    fn load(&self, from: Option<&str>, name: &str) -> Result<Loaded, LoadFault> {
        let p = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/builds").join(name);
        Ok(Loaded {
            name: name.to_owned(),
            text: std::fs::read_to_string(p).map_err(|f| LoadFault::Refused(f.to_string()))?,
        })
    }
}
#[test]
fn show() {
    for name in [
        "bramble",
        "juniper",
        "lupin",
        "sorrel",
        "tansy",
        "yarrow",
        "bramble-faulty",
        "juniper-faulty",
        "lupin-faulty",
        "sorrel-faulty",
        "tansy-faulty",
        "yarrow-faulty",
    ] {
        let options = ReviewOptions { today: Today::Is(jiff::civil::date(2026, 11, 25)), draft: false };
        let file = format!("{name}.build.kdl");
        let r = review(&Folder, &file, packs::shipped().unwrap(), options);
        println!("=== {name}");
        for f in r.failed.iter().flat_map(|f| std::iter::once(f).chain(&f.follow)) {
            let interesting =
                ["energy/", "start", "tilt", "sun-"].iter().any(|w| f.rule.contains(w)) || !name.contains("faulty");
            if interesting {
                println!("FAIL {} {} [{}] {}\n     -> {}", f.rule, f.part, f.case, f.message, f.remedy);
            }
        }
        for f in &r.undecided {
            println!("OPEN {} {} [{}] {:?}", f.rule, f.part, f.case, f.outcome);
        }
        let build = design::link(spec::read(&Folder, &file, &mut spec::text::BlockCache::new()));
        let mut reader = design::Reader::new(&build);
        for (id, part) in build.parts() {
            if part.kind != vocabulary::kind::WEEK {
                continue;
            }
            println!("--- {}", part.title);
            for spec in vocabulary::part(part.kind).facts() {
                for case in reader.cases_among(spec.axes) {
                    let u = rules::review::fact_used(&mut reader, id, spec.id, case, quantity::System::Metric);
                    println!("   {} {} = {:?}", u.fact, reader.cases().title(case), u.value);
                    if name == "bramble" || name == "tansy" {
                        if ["lowest", "autonomy", "brought-at-best"].contains(&spec.name) {
                            for s in reader.working(id, spec.id, case).steps {
                                println!("        {}{}", s.text, if s.assumed { " (assumed)" } else { "" });
                            }
                        }
                    }
                }
            }
        }
    }
}
