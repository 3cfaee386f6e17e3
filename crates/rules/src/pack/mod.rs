//! Rule packs: from rule files to compiled rules, and which of them apply to a build.
//!
//! A rule file (`rules/<pack>/<domain>.rules.kdl`) is KDL 2, read through the same text layer as a specification. The
//! project's own packs and a shop's go through the same door. Everything that is wrong in a file is a [`PackFault`] with
//! the narrowest place: what is misspelt, missing, written twice or contradictory, and what the compiler of the
//! expressions refuses.

mod blob;
mod embedded;
mod examples;
mod fault;
pub(crate) mod figure;
mod form;
mod language;
mod read;
mod select;
mod sheet;
mod values;

pub use blob::BlobFault;
pub use embedded::Embedded;
pub use fault::PackFault;
pub use read::{ENDING, read_sheet};
pub use select::{Selected, figure, figures, for_classes, pack_region, select};
pub use sheet::{Action, Example, Expected, FigurePlaces, Fixture, Impossible, RuleSheet, Sheet, ShownByTest, Step};

use crate::rule::Rule;
use std::collections::HashMap;
use vocabulary::nearest;

/// Compiled rules, without their examples.
#[derive(Clone, Debug, Default)]
pub struct Packs {
    /// The rules, sorted by name.
    pub rules: Vec<Rule>,
}

impl Packs {
    /// The rule of that name.
    pub fn rule(&self, name: &str) -> Option<&Rule> {
        let found = self.rules.binary_search_by(|rule| rule.name.as_str().cmp(name)).ok()?;
        self.rules.get(found)
    }

    /// These packs and others together, sorted by name.
    pub fn and(mut self, others: Self) -> Self {
        self.rules.extend(others.rules);
        self.rules.sort_by(|one, other| one.name.cmp(&other.name));
        self
    }
}

/// Compiles rule files: each a path, which names its pack and domain, and its text.
///
/// # Errors
/// Everything that is wrong in the files, in the order of the files and of their texts.
pub fn compile(files: &[(&str, &str)]) -> Result<Packs, Vec<PackFault>> {
    compile_beside(files, &Packs::default())
}

/// Compiles rule files that stand beside compiled packs: a shop's own beside the shipped ones. The names of those are taken,
/// and a rule may follow from one of them.
///
/// # Errors
/// As [`compile`].
pub fn compile_beside(files: &[(&str, &str)], beside: &Packs) -> Result<Packs, Vec<PackFault>> {
    let (sheets, faults) = read_sheets(files, beside);
    if !faults.is_empty() {
        return Err(faults);
    }
    let mut rules: Vec<Rule> = sheets.into_iter().flat_map(|sheet| sheet.rules).map(|sheet| sheet.rule).collect();
    rules.sort_by(|one, other| one.name.cmp(&other.name));
    Ok(Packs { rules })
}

/// What is wrong in one rule file that stands beside compiled packs. Rules of the same pack and domain among those are this
/// file's own, as it was when they were compiled: they take no names.
pub fn faults_of_file(path: &str, text: &str, beside: &Packs) -> Vec<PackFault> {
    let (sheet, _) = read_sheet(path, text);
    let own = |rule: &Rule| {
        rule.pack == sheet.pack && rule.name.split_once('/').is_some_and(|(domain, _)| domain == sheet.domain)
    };
    let others = Packs { rules: beside.rules.iter().filter(|rule| !own(rule)).cloned().collect() };
    read_sheets(&[(path, text)], &others).1
}

/// Reads rule files with their examples and checks them against each other: no name twice, and every rule that another one
/// follows exists.
pub fn read_sheets(files: &[(&str, &str)], beside: &Packs) -> (Vec<Sheet>, Vec<PackFault>) {
    let (sheets, mut faults): (Vec<Sheet>, Vec<Vec<PackFault>>) =
        files.iter().map(|(path, text)| read_sheet(path, text)).unzip();
    let mut taken: HashMap<&str, &str> =
        beside.rules.iter().map(|rule| (rule.name.as_str(), rule.pack.as_str())).collect();
    for (sheet, faults) in sheets.iter().zip(&mut faults) {
        for (name, at) in &sheet.names {
            if let Some(first) = taken.insert(name, &sheet.file) {
                faults.push(PackFault {
                    file: sheet.file.clone(),
                    at: at.clone(),
                    message: format!("the rule \"{name}\" stands twice: it is in {first} too"),
                    help: "Give one of them another name: a finding is looked up by it.".to_owned(),
                });
            }
        }
    }
    for (sheet, faults) in sheets.iter().zip(&mut faults) {
        for (rule, (follows, at)) in
            sheet.rules.iter().flat_map(|rule| rule.follows.iter().map(move |follows| (rule, follows)))
        {
            if follows == &rule.rule.name {
                faults.push(PackFault {
                    file: sheet.file.clone(),
                    at: at.clone(),
                    message: "the rule follows itself".to_owned(),
                    help: "Name the rule whose finding explains this one, or take `follows` away.".to_owned(),
                });
            } else if !taken.contains_key(follows.as_str()) {
                faults.push(PackFault {
                    file: sheet.file.clone(),
                    at: at.clone(),
                    message: format!("no rule is called \"{follows}\""),
                    help: match nearest(follows, taken.keys().copied()) {
                        Some(near) => format!("Did you mean \"{near}\"?"),
                        None => "Name a rule of any pack.".to_owned(),
                    },
                });
            }
        }
        faults.sort_by_key(|fault| (fault.at.start, fault.at.end));
    }
    (sheets, faults.into_iter().flatten().collect())
}
