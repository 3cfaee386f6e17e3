//! Reads a build with all that it includes.

use crate::like;
use crate::loader::{LoadFault, Loader};
use crate::lower::{Likeness, Lowered, lower};
use crate::part::{File, Part, RuleFile, Span, Spec, Via};
use crate::slip::Slip;
use crate::text::{self, BlockCache, FaultKind};
use crate::value::Value;
use std::sync::Arc;
use vocabulary::{fact, kind};

/// The ending of files whose parts are patterns for `like=` and no parts of the build.
pub const PARTS_ENDING: &str = ".parts.kdl";

/// The deepest that files may include each other: far beyond any build, and within the stack of any thread.
const DEEPEST: usize = 16;

/// The ending that every included file has: an include is for specifications, and a review must not show the lines of
/// whatever else can be read on the machine.
pub const FILE_ENDING: &str = ".kdl";

/// The ending of files of house rules.
pub const RULES_ENDING: &str = ".rules.kdl";

/// The most files that one build may include.
const MOST_FILES: usize = 200;

/// Reads the build `name` with its includes. Never fails: what cannot be had or read is among the slips.
pub fn read(loader: &dyn Loader, name: &str, cache: &mut BlockCache) -> Spec {
    cache.begin();
    let mut reading =
        Reading { loader, cache, spec: Spec::default(), parts: Vec::new(), patterns: Vec::new(), open: Vec::new() };
    reading.file(None, name, false);
    let Reading { mut spec, mut parts, patterns, cache, .. } = reading;
    cache.end();
    like::resolve(&mut parts, &patterns, &mut spec.slips);
    spec.parts = parts.into_iter().map(|(part, _)| part).collect();
    spec.patterns = patterns.into_iter().map(|(part, _)| part).collect();
    if spec.parts.is_empty() && spec.slips.is_empty() {
        let at = Span { file: 0, bytes: 0..0 };
        spec.slips.push(
            Slip::new("text/nothing-described", at, "this file describes nothing yet")
                .help("begin with a build: build Name { stage draft; basis eu; }"),
        );
    }
    spec
}

struct Reading<'a> {
    loader: &'a dyn Loader,
    cache: &'a mut BlockCache,
    spec: Spec,
    parts: Vec<(Part, Option<Likeness>)>,
    patterns: Vec<(Part, Option<Likeness>)>,
    /// The names of the files being read, from the build inward.
    open: Vec<String>,
}

impl Reading<'_> {
    /// Reads one file; `asked` is where an include asks for it.
    fn file(&mut self, asked: Option<&Span>, name: &str, as_patterns: bool) {
        let from = self.open.last().cloned();
        let loaded = match self.loader.load(from.as_deref(), name) {
            Ok(loaded) => loaded,
            Err(fault) => {
                self.not_loaded(asked, name, fault);
                return;
            }
        };
        if let Some(asked) = asked {
            if self.open.contains(&loaded.name) {
                self.spec.slips.push(
                    Slip::new(
                        "text/include-in-a-circle",
                        asked.clone(),
                        format!("`{name}` includes itself in the end"),
                    )
                    .help("take one include of the circle out; names are shared over all files of a build anyway"),
                );
                return;
            }
            if self.spec.files.iter().any(|file| *file.name == *loaded.name) {
                // Included twice, from two places: its parts are here already.
                return;
            }
            if self.open.len() >= DEEPEST {
                self.spec.slips.push(
                    Slip::new(
                        "text/include-missing",
                        asked.clone(),
                        format!("`{name}` is included more than {DEEPEST} files deep"),
                    )
                    .help("include it from the build itself; names are shared over all files of a build"),
                );
                self.spec.incomplete.every = true;
                return;
            }
            if self.spec.files.len() >= MOST_FILES {
                self.spec.slips.push(
                    Slip::new(
                        "text/include-missing",
                        asked.clone(),
                        format!("this build includes more than {MOST_FILES} files"),
                    )
                    .help("join some of them"),
                );
                self.spec.incomplete.every = true;
                return;
            }
        }
        let number = u32::try_from(self.spec.files.len()).unwrap_or(u32::MAX);
        let document = text::read(&loaded.text, self.cache);
        self.spec.files.push(File { name: loaded.name.as_str().into(), text: loaded.text.into() });
        let mut lowered = lower(&document, number);
        like::fill_defaults(&mut lowered.parts);
        self.spec.slips.append(&mut lowered.slips);
        self.open.push(loaded.name);
        self.take(lowered, asked, as_patterns);
        self.open.pop();
    }

    fn take(&mut self, lowered: Lowered, asked: Option<&Span>, as_patterns: bool) {
        if !as_patterns {
            self.spec.incomplete.add(&lowered.incomplete);
        }
        for (mut part, likeness) in lowered.parts {
            let asks = |part: &Part| part.kind == kind::INCLUDE || part.kind == kind::HOUSE_RULES;
            let asking: Vec<Part> = if asks(&part) {
                vec![part.clone()]
            } else {
                part.inside.iter().filter(|inner| asks(inner)).cloned().collect()
            };
            if let Some(asked) = asked {
                part.via.push(Via::Include(asked.clone()));
            }
            if part.kind == kind::BUILD && as_patterns {
                let slip = Slip::new("names/build-in-include", part.head.clone(), "a parts file describes a build")
                    .help("take it out: a parts file holds patterns for like=, and none of its parts is built");
                self.spec.slips.push(match asked {
                    Some(asked) => slip.related(asked.clone(), "taken in here"),
                    None => slip,
                });
            } else if !asks(&part) {
                let list = if as_patterns { &mut self.patterns } else { &mut self.parts };
                list.push((part, likeness));
            }
            for asking in asking {
                if asking.kind == kind::INCLUDE {
                    self.include(&asking, as_patterns);
                } else {
                    self.house_rules(&asking);
                }
            }
        }
    }

    fn include(&mut self, include: &Part, as_patterns: bool) {
        if let Some(given) = include.given(fact::include::FILE)
            && let Value::Text(name) = &given.value
        {
            let name: Arc<str> = name.clone();
            if !name.ends_with(FILE_ENDING) {
                self.spec.incomplete.every = true;
                self.spec.slips.push(
                    Slip::new("text/include-missing", given.at.clone(), format!("`{name}` is no specification"))
                        .help(format!("an include names a file that ends in {PARTS_ENDING} or .build{FILE_ENDING}")),
                );
                return;
            }
            let patterns = as_patterns || name.ends_with(PARTS_ENDING);
            self.file(Some(&given.at.clone()), &name, patterns);
        }
    }

    /// Takes in a file of house rules as it is: what stands in it is for the rules to read.
    fn house_rules(&mut self, asking: &Part) {
        let Some(given) = asking.given(fact::house_rules::FILE) else { return };
        let Value::Text(name) = &given.value else { return };
        let file = self.rule_file(name);
        // Named twice, from two places: its rules count once.
        if file.is_err() || self.spec.rule_files.iter().all(|other| other.file != file) {
            self.spec.rule_files.push(RuleFile { file, asked: given.at.clone() });
        }
    }

    fn rule_file(&mut self, name: &str) -> Result<u32, String> {
        if !name.ends_with(RULES_ENDING) {
            return Err(format!("the name of a rule file ends in {RULES_ENDING}"));
        }
        let loaded = match self.loader.load(self.open.last().map(String::as_str), name) {
            Ok(loaded) => loaded,
            Err(LoadFault::Refused(why)) => return Err(why),
            Err(LoadFault::NotText(fault)) => return Err(fault.message),
        };
        let known = self.spec.files.iter().position(|file| *file.name == *loaded.name);
        if known.is_none() && self.spec.files.len() >= MOST_FILES {
            return Err(format!("this build names more than {MOST_FILES} files"));
        }
        let number = known.unwrap_or(self.spec.files.len());
        if known.is_none() {
            self.spec.files.push(File { name: loaded.name.as_str().into(), text: loaded.text.into() });
        }
        Ok(u32::try_from(number).unwrap_or(u32::MAX))
    }

    fn not_loaded(&mut self, asked: Option<&Span>, name: &str, fault: LoadFault) {
        self.spec.incomplete.every = true;
        let at = match asked {
            Some(asked) => asked.clone(),
            None => {
                // The build itself: the finding still needs a file to stand in.
                self.spec.files.push(File { name: name.into(), text: "".into() });
                Span { file: 0, bytes: 0..0 }
            }
        };
        self.spec.slips.push(match fault {
            LoadFault::Refused(why) => Slip::new("text/include-missing", at, format!("`{name}` cannot be read: {why}"))
                .help("give the name of a file that is there, relative to this one"),
            LoadFault::NotText(fault) => {
                let rule = match fault.kind {
                    FaultKind::NotUtf8 => "text/not-utf8",
                    _ => fault.kind.rule(),
                };
                Slip::new(rule, at, format!("`{name}`: {}", fault.message)).help(fault.help)
            }
        });
    }
}
