//! One check of one build: the same reading, linking and judging as the command `review`.

use crate::diagnostics;
use crate::disk::{Overlay, ReadFile, ResolvePath, name_of};
use crate::position::Lines;
use crate::state::State;
use design::Build;
use rules::pack::Packs;
use rules::review::review_build;
use rules::{Review, ReviewOptions, Today};
use spec::Spec;
use spec::text::BlockCache;
use std::collections::BTreeMap;
use std::path::PathBuf;
use std::sync::Arc;
use tower_lsp::lsp_types::{Diagnostic, Url};

/// What the server is given besides the texts.
#[derive(Clone)]
pub struct Surroundings {
    /// The rules.
    pub packs: &'static Packs,
    /// The day on which waivers are judged.
    pub today: Today,
    /// How files are read.
    pub read: ReadFile,
    /// Where paths lead.
    pub resolve: ResolvePath,
    /// Where the page of a rule stands, if it has one.
    pub page: RulePage,
}

/// Gives the file of a rule's page.
pub type RulePage = Arc<dyn Fn(&str) -> Option<PathBuf> + Send + Sync>;

/// A finished check.
pub struct Checked {
    /// The linked build.
    pub build: Build,
    /// What was found.
    pub review: Review,
    /// The address of each file of the review, in its order.
    pub urls: Vec<Option<Url>>,
    /// What is shown of it, by file.
    pub shown: BTreeMap<Url, Vec<Diagnostic>>,
    /// What is worked out of it when it is first asked for.
    pub views: crate::views::Views,
}

impl Checked {
    /// The number of a file in this check.
    pub fn file(&self, url: &Url) -> Option<usize> {
        self.urls.iter().position(|own| own.as_ref() == Some(url))
    }
}

/// What a text is for the server, told by its name as the command line does; no other text is touched.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Sort {
    /// A build: reviewed with all that it includes.
    Build,
    /// Parts for builds to include.
    Parts,
    /// A rule pack.
    Rules,
}

impl Sort {
    /// The sort of a text.
    pub fn of(url: &Url) -> Option<Self> {
        let path = url.path();
        [(".build.kdl", Self::Build), (".parts.kdl", Self::Parts), (".rules.kdl", Self::Rules)]
            .into_iter()
            .find(|(ending, _)| path.ends_with(ending))
            .map(|(_, sort)| sort)
    }
}

/// What stands in a text and all that it includes.
pub struct Text {
    /// The parts.
    pub spec: Spec,
    /// The address of each file, in their order.
    pub urls: Vec<Option<Url>>,
    /// The lines of each file, in their order.
    pub lines: Vec<Lines>,
}

/// Reads a text as it stands in a state.
pub fn read(state: &State, url: &Url, surroundings: &Surroundings, cache: &mut BlockCache) -> Text {
    let overlay = Overlay::of(state, &surroundings.read, &surroundings.resolve);
    let spec = spec::read(&overlay, &name_of(url), cache);
    let address = |(number, file): (usize, &spec::File)| {
        if number == 0 { Some(url.clone()) } else { overlay.address(&file.name) }
    };
    let urls = spec.files.iter().enumerate().map(address).collect();
    let lines = spec.files.iter().map(|file| Lines::of(&file.text)).collect();
    Text { spec, urls, lines }
}

/// Checks a build as it stands in a state.
pub fn check(state: &State, url: &Url, surroundings: &Surroundings, cache: &mut BlockCache) -> Checked {
    let Text { spec, urls, .. } = read(state, url, surroundings, cache);
    let build = design::link(spec);
    let options = ReviewOptions { today: surroundings.today, draft: false };
    let review = review_build(&build, surroundings.packs, options);
    let mut checked = Checked { build, review, urls, shown: BTreeMap::new(), views: crate::views::Views::default() };
    checked.shown = diagnostics::of_check(&checked, state.client, &surroundings.page);
    checked
}

/// What is wrong in a text of parts by itself: of its build nothing is asked.
pub fn faults_of_parts(state: &State, url: &Url, surroundings: &Surroundings) -> Vec<spec::Slip> {
    let text = read(state, url, surroundings, &mut BlockCache::off());
    text.spec.slips.into_iter().filter(|slip| slip.at.file == 0).collect()
}
