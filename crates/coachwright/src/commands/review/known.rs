//! Findings that were known before: a file that lists them, for shops that take the tool up with builds that exist.

use crate::files;
use rules::finding::{Finding, Outcome, Review};
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// The version of the file. A new number when a reader of the old one could be misled.
const VERSION: u32 = 1;

/// The file as it is written: for people to read in a merge request, and to take lines out of.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Text {
    version: u32,
    about: String,
    builds: BTreeMap<String, Vec<Line>>,
}

#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Line {
    rule: String,
    part: String,
    fingerprint: String,
    /// Whether it could not be told: then a failure is new.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    undecided: bool,
}

/// What was known of one build.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Before {
    failed: BTreeSet<String>,
    undecided: BTreeSet<String>,
}

impl Before {
    /// All that a review found.
    pub fn of(review: &Review) -> Self {
        let prints = |findings: &[Finding]| findings.iter().map(|finding| finding.fingerprint.clone()).collect();
        Self { failed: prints(&review.failed), undecided: prints(&review.undecided) }
    }

    /// Whether a finding was known. What could not be told and now fails is new; what failed and now cannot be told is not.
    pub fn knows(&self, finding: &Finding) -> bool {
        self.failed.contains(&finding.fingerprint)
            || matches!(finding.outcome, Outcome::Undecided { .. }) && self.undecided.contains(&finding.fingerprint)
    }

    /// How many of them a review does not find any more.
    pub fn gone(&self, review: &Review) -> usize {
        let found: BTreeSet<&str> = [&review.failed, &review.undecided, &review.known]
            .into_iter()
            .flatten()
            .map(|finding| &*finding.fingerprint)
            .collect();
        self.failed.union(&self.undecided).filter(|own| !found.contains(own.as_str())).count()
    }
}

/// A file of known findings.
#[derive(Debug)]
pub struct Known {
    folder: PathBuf,
    builds: BTreeMap<String, Vec<Line>>,
}

impl Known {
    /// Reads a file.
    ///
    /// # Errors
    /// In words for the one who named it.
    pub fn read(path: &Path) -> Result<Self, String> {
        let text = files::text(path).map_err(|fault| match fault {
            spec::LoadFault::Refused(why) => why,
            spec::LoadFault::NotText(fault) => fault.message,
        })?;
        let again = "write it anew: coachwright review --write-known FILE SPEC...";
        let text: Text = serde_json::from_str(&text)
            .map_err(|error| format!("it is no file of known findings ({error}); {again}"))?;
        if text.version != VERSION {
            return Err(format!(
                "it is of version {}, and this program reads version {VERSION}; {again}",
                text.version
            ));
        }
        Ok(Self { folder: folder_of(path), builds: text.builds })
    }

    /// An empty one, for a file that is to be written.
    pub fn beside(path: &Path) -> Self {
        Self { folder: folder_of(path), builds: BTreeMap::new() }
    }

    /// What is known of a build.
    pub fn of(&self, spec: &Path) -> Before {
        let mut before = Before::default();
        for line in self.builds.get(&self.name(spec)).into_iter().flatten() {
            let list = if line.undecided { &mut before.undecided } else { &mut before.failed };
            list.insert(line.fingerprint.clone());
        }
        before
    }

    /// Takes in what was found of a build, in place of what was known of it.
    pub fn take(&mut self, spec: &Path, review: &Review) {
        let line = |finding: &Finding, undecided| Line {
            rule: finding.rule.to_string(),
            part: finding.part.clone(),
            fingerprint: finding.fingerprint.clone(),
            undecided,
        };
        let failed = review.failed.iter().map(|finding| line(finding, false));
        let mut lines: Vec<Line> = failed.chain(review.undecided.iter().map(|finding| line(finding, true))).collect();
        lines.sort();
        self.builds.insert(self.name(spec), lines);
    }

    /// The builds that it lists and that are not there any more.
    pub fn gone(&self) -> Vec<String> {
        // Of a path that is no text, the file only knows what can be written of it.
        let away = |name: &&String| !name.contains(char::REPLACEMENT_CHARACTER) && !self.folder.join(name).exists();
        self.builds.keys().filter(away).cloned().collect()
    }

    /// Forgets builds that are not there any more.
    pub fn forget_gone(&mut self) {
        for name in self.gone() {
            self.builds.remove(&name);
        }
    }

    /// The text of the file.
    pub fn text(&self) -> String {
        let text = Text {
            version: VERSION,
            about: String::from(
                "Findings of coachwright that were there before the tool was taken up. They still stand: take a line out \
                 when it is mended.",
            ),
            builds: self.builds.clone(),
        };
        serde_json::to_string_pretty(&text).map(|text| text + "\n").unwrap_or_default()
    }

    /// A build by its path from the folder of the file, the same on every machine.
    fn name(&self, spec: &Path) -> String {
        let own = std::fs::canonicalize(spec).unwrap_or_else(|_| spec.to_owned());
        let way = pathdiff::diff_paths(&own, &self.folder).unwrap_or(own);
        way.components().map(|part| part.as_os_str().to_string_lossy()).collect::<Vec<_>>().join("/")
    }
}

fn folder_of(path: &Path) -> PathBuf {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    std::fs::canonicalize(folder).unwrap_or_else(|_| folder.to_owned())
}
