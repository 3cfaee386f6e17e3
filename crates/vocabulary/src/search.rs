//! The nearest of a list of names, for 'did you mean'.

/// The candidate nearest to `word` by edits (insertions, deletions, replacements, swaps of neighbours), if it is near
/// enough to be a slip of the pen: at most one edit for words up to four letters, two up to eight, three above.
pub fn nearest<'a>(word: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let length = word.chars().count();
    let allowed = match length {
        0..=4 => 1,
        5..=8 => 2,
        _ => 3,
    };
    candidates
        .into_iter()
        .filter(|candidate| candidate.chars().count().abs_diff(length) <= allowed)
        .map(|candidate| (strsim::osa_distance(word, candidate), candidate))
        .filter(|(distance, _)| *distance <= allowed)
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, candidate)| candidate)
}
