//! One check of one build: the same reading, linking and judging as the command `review`.

use crate::disk::{Overlay, name_of};
use crate::state::State;
use design::Build;
use rules::pack::Packs;
use rules::review::review_build;
use rules::{Review, ReviewOptions, Today};
use spec::text::BlockCache;
use tower_lsp::lsp_types::Url;

/// What the server is given besides the texts.
#[derive(Clone)]
pub struct Surroundings {
    /// The rules.
    pub packs: &'static Packs,
    /// The day on which waivers are judged.
    pub today: Today,
    /// How files are read.
    pub read: crate::disk::ReadFile,
}

/// A finished check.
pub struct Checked {
    /// The linked build.
    pub build: Build,
    /// What was found.
    pub review: Review,
    /// The address of each file of the review, in its order.
    pub urls: Vec<Option<Url>>,
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

/// Checks a build as it stands in a state.
pub fn check(state: &State, url: &Url, surroundings: &Surroundings, cache: &mut BlockCache) -> Checked {
    let open = state.documents.iter().map(|(url, document)| (name_of(url), document.text.clone())).collect();
    let overlay = Overlay { open, read: surroundings.read.clone() };
    let name = name_of(url);
    let build = design::link(spec::read(&overlay, &name, cache));
    let options = ReviewOptions { today: surroundings.today, draft: false };
    let review = review_build(&build, surroundings.packs, options);
    let urls = review
        .files
        .iter()
        .enumerate()
        .map(|(number, file)| if number == 0 { Some(url.clone()) } else { state.address(&file.name) })
        .collect();
    Checked { build, review, urls, views: crate::views::Views::default() }
}

/// What is wrong in a text of parts by itself: of its build nothing is asked.
pub fn faults_of_parts(state: &State, url: &Url, surroundings: &Surroundings) -> Vec<spec::Slip> {
    let open = state.documents.iter().map(|(url, document)| (name_of(url), document.text.clone())).collect();
    let overlay = Overlay { open, read: surroundings.read.clone() };
    let spec = spec::read(&overlay, &name_of(url), &mut BlockCache::off());
    spec.slips.into_iter().filter(|slip| slip.at.file == 0).collect()
}
