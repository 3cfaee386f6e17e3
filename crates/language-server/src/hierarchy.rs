//! The path of a circuit as a hierarchy: from any part back to what feeds it, and on to what it feeds, one step at a time.

use crate::check::Checked;
use crate::outline::symbol_kind;
use crate::position::Lines;
use crate::reading::{bytes, holds};
use crate::state::State;
use design::{Part, PartId};
use serde_json::{Value as Json, json};
use spec::{Span, Value};
use tower_lsp::lsp_types::*;
use vocabulary::{Family, Naming};

/// The part at a position, if it stands in the network.
pub fn prepare(state: &State, url: &Url, position: Position) -> Option<Vec<CallHierarchyItem>> {
    let document = state.documents.get(url)?;
    let (root, checked) = state.current(url)?;
    let file = u32::try_from(checked.file(url)?).ok()?;
    let byte = document.lines.byte(&document.text, position, state.client.encoding)?;
    let part = part_at(checked, file, u32::try_from(byte).ok()?)?;
    Some(vec![item(state, root, checked, part)?])
}

/// What feeds the part of an item.
pub fn incoming(state: &State, item: &CallHierarchyItem) -> Option<Vec<CallHierarchyIncomingCall>> {
    let (root, checked, part) = found(state, item)?;
    let calls = checked.feeds().fed_by(part).iter().filter_map(|other| {
        Some(CallHierarchyIncomingCall {
            from: self::item(state, root, checked, *other)?,
            from_ranges: vec![range(state, checked, &mention(checked, *other, part))?],
        })
    });
    Some(calls.collect())
}

/// What the part of an item feeds.
pub fn outgoing(state: &State, item: &CallHierarchyItem) -> Option<Vec<CallHierarchyOutgoingCall>> {
    let (root, checked, part) = found(state, item)?;
    let calls = checked.feeds().feeds(part).iter().filter_map(|other| {
        Some(CallHierarchyOutgoingCall {
            to: self::item(state, root, checked, *other)?,
            from_ranges: vec![range(state, checked, &mention(checked, part, *other))?],
        })
    });
    Some(calls.collect())
}

/// The part that a client hands back to us, in the newest check of its build.
fn found<'s>(state: &'s State, item: &CallHierarchyItem) -> Option<(&'s Url, &'s Checked, PartId)> {
    let text = |member: &str| item.data.as_ref()?.get(member)?.as_str();
    let root = Url::parse(text("build")?).ok()?;
    let (root, checked) = state.checked.get_key_value(&root)?;
    let key = text("part")?;
    let (part, _) = checked.build.parts().find(|(_, part)| *part.key == *key)?;
    Some((root, checked, part))
}

fn item(state: &State, root: &Url, checked: &Checked, id: PartId) -> Option<CallHierarchyItem> {
    let part = checked.build.part(id);
    let uri = checked.urls.get(part.head.file as usize)?.clone()?;
    let title = report::visible(&part.title).into_owned();
    let name = part.name.as_deref().map(|name| report::visible(name.trim()).into_owned());
    let data: Json = json!({ "build": root, "part": &*part.key });
    Some(CallHierarchyItem {
        name: name.filter(|name| !name.is_empty()).unwrap_or_else(|| title.clone()),
        kind: symbol_kind(vocabulary::part(part.kind).family),
        tags: None,
        detail: Some(title),
        uri,
        range: range(state, checked, &part.whole)?,
        selection_range: range(state, checked, &part.head)?,
        data: Some(data),
    })
}

fn range(state: &State, checked: &Checked, at: &Span) -> Option<Range> {
    let text = &checked.review.files.get(at.file as usize)?.text;
    Some(Lines::of(text).range(text, &bytes(at), state.client.encoding))
}

/// The part in the network that stands at a byte: the thing that is named there, else the innermost part.
fn part_at(checked: &Checked, file: u32, byte: u32) -> Option<PartId> {
    let build = &checked.build;
    let written = |part: &Part| vocabulary::part(part.kind).family != Family::Worked;
    let here = |part: &Part| part.whole.file == file && holds(&part.whole, byte) && written(part);
    let (innermost, part) = build
        .parts()
        .filter(|(_, part)| here(part))
        .min_by_key(|(_, part)| part.whole.bytes.end - part.whole.bytes.start)?;
    let feeds = checked.feeds();
    let mut mentioned = mentions(checked, part).into_iter();
    let named = mentioned.find(|(at, _)| at.file == file && holds(at, byte)).and_then(|(_, name)| {
        let mut called = build.called(&name).filter(|(_, part)| written(part) && defines(part));
        called.find(|(id, _)| feeds.has(*id)).map(|(id, _)| id)
    });
    named.or_else(|| feeds.standing_for(build, innermost))
}

fn defines(part: &Part) -> bool {
    vocabulary::part(part.kind).naming != Naming::Refers
}

/// The names of other parts that a part itself says, each with its place.
fn mentions(checked: &Checked, part: &Part) -> Vec<(Span, String)> {
    let mut mentions = Vec::new();
    if let Some(name) = part.name.as_ref().filter(|_| !defines(part)) {
        // A name by which a way refers to its thing ends the way's head.
        let head = checked.review.files.get(part.head.file as usize).and_then(|file| file.text.get(bytes(&part.head)));
        let quotes = if head.is_some_and(|head| head.ends_with('"')) { "\"\"".len() } else { 0 };
        let length = u32::try_from(name.len() + quotes).unwrap_or(0);
        let start = part.head.bytes.end.saturating_sub(length).max(part.head.bytes.start);
        let at = Span { file: part.head.file, bytes: start..part.head.bytes.end };
        mentions.push((at, name.to_string()));
    }
    for given in part.given.iter().filter(|given| given.via.is_none()) {
        match &given.value {
            Value::Name(name) => mentions.push((given.at.clone(), name.to_string())),
            Value::Names(names) => mentions.extend(names.iter().map(|(name, at)| (at.clone(), name.to_string()))),
            _ => {}
        }
    }
    mentions
}

/// Where a part names another: the step between them. Where it does not, its head.
fn mention(checked: &Checked, part: PartId, other: PartId) -> Span {
    let (part, other) = (checked.build.part(part), checked.build.part(other));
    let mut mentioned = mentions(checked, part).into_iter();
    let named = mentioned.find(|(at, name)| at.file == part.head.file && other.name.as_deref() == Some(name.as_str()));
    named.map_or_else(|| part.head.clone(), |(at, _)| at)
}
