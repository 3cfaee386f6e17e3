//! From the tree of one file to typed parts, by the vocabulary.

use crate::part::{Given, Incomplete, Name, Part, Span};
use crate::slip::Slip;
use crate::text::{Bytes, Document, Entry, Node, Scalar, Unread};
use crate::value::{self, Value};
use std::sync::Arc;
use vocabulary::{Absent, FactKind, FactSpec, Family, Naming, PartKind, PartSpec, Written};

/// The property by which a part takes another as its starting point.
pub const LIKE: &str = "like";

/// A `like=` that is still to be resolved.
#[derive(Clone, PartialEq, Debug)]
pub struct Likeness {
    /// The name of the pattern.
    pub name: Arc<str>,
    /// Where it is written.
    pub at: Span,
}

/// What one file says, before likenesses and includes are resolved.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Lowered {
    /// Its top-level parts, in the order of the text, each with its likeness if it has one.
    pub parts: Vec<(Part, Option<Likeness>)>,
    /// What is wrong in it.
    pub slips: Vec<Slip>,
    /// Which lists may be incomplete.
    pub incomplete: Incomplete,
}

/// The longest text that a mend shows in its title.
const LONGEST_SHOWN: usize = 40;

/// What a mend does that puts this text in the place of a fault.
fn title_of(text: &str) -> String {
    match text.trim() {
        "" => "take it out".to_owned(),
        short if short.len() <= LONGEST_SHOWN && !short.contains(['\n', '\r']) => format!("write {short}"),
        _ => "write it so".to_owned(),
    }
}

/// Brings the document of file number `file` to typed parts.
pub fn lower(document: &Document, file: u32) -> Lowered {
    let mut lowering = Lowering { file, slips: Vec::new() };
    for fault in &document.faults {
        let mut slip = Slip::new(fault.kind.rule(), lowering.span(&fault.at), fault.message.clone());
        slip.help = Some(fault.help.clone()).filter(|help| !help.is_empty());
        if let Some(mend) = &fault.instead {
            slip = slip.mend(title_of(&mend.text), lowering.span(&mend.at), mend.text.clone());
        }
        lowering.slips.push(slip);
    }
    let mut lowered = Lowered::default();
    lowered.incomplete.every = document.incomplete;
    for node in &document.nodes {
        match lowering.top(node) {
            Ok((part, likeness)) => {
                if part.unread {
                    lowered.incomplete.kinds.insert(part.kind);
                }
                lowered.parts.push((part, likeness));
            }
            Err(incomplete) => lowered.incomplete.add(&incomplete),
        }
    }
    lowered.slips = lowering.slips;
    lowered
}

struct Lowering {
    file: u32,
    slips: Vec<Slip>,
}

/// A part while its line and its inside are read.
struct Draft {
    part: Part,
    likeness: Option<Likeness>,
    /// Properties that a misspelt word seems to mean, each with the place of that word: said, though not what.
    meant: Vec<(&'static FactSpec, Span)>,
    /// Whether a slip has been made of the part's name already.
    nameless: bool,
}

impl Lowering {
    fn span(&self, bytes: &Bytes) -> Span {
        Span { file: self.file, bytes: bytes.clone() }
    }

    /// A top-level node; an error says which lists it leaves incomplete.
    fn top(&mut self, node: &Node) -> Result<(Part, Option<Likeness>), Incomplete> {
        let spec = self.known_kind(node, vocabulary::parts().iter().filter(|part| part.top), "at the top of a file")?;
        Ok(self.part(spec, node))
    }

    /// The part kind of a node among those that may stand here.
    fn known_kind(
        &mut self,
        node: &Node,
        here: impl Iterator<Item = &'static PartSpec> + Clone,
        place: &str,
    ) -> Result<&'static PartSpec, Incomplete> {
        let word = &*node.name.text;
        if let Some(spec) = here.clone().find(|part| part.word == word) {
            return Ok(spec);
        }
        let at = self.span(&node.name.at);
        let mut incomplete = Incomplete::default();
        if node.name.text.is_empty() {
            // The text layer has said what is wrong with this line.
            incomplete.every = true;
            return Err(incomplete);
        }
        if let Some(elsewhere) = vocabulary::part_by_word(word).filter(|part| part.family != Family::Worked) {
            add_with_inside(&mut incomplete, elsewhere);
            self.slips.push(
                Slip::new("text/part-out-of-place", at, format!("`{word}` does not stand {place}"))
                    .help(format!("`{word}` stands {}", places_of(elsewhere))),
            );
            return Err(incomplete);
        }
        let other = vocabulary::part_by_other_word(word).map(|part| part.word);
        let near = other.or_else(|| vocabulary::nearest(word, here.clone().map(|part| part.word)));
        let slip = Slip::new("text/unknown-part", at.clone(), format!("`{word}` is no part that can stand {place}"));
        match near.and_then(vocabulary::part_by_word) {
            Some(near) => {
                add_with_inside(&mut incomplete, near);
                self.slips.push(slip.help(format!("did you mean `{}`? {}", near.word, near.help)).mend(
                    format!("write {}", near.word),
                    at,
                    near.word,
                ));
            }
            // A word that is near none of ours stands for none of the parts that we know: it hides none.
            None => {
                let known: Vec<&str> = here.map(|part| part.word).collect();
                self.slips.push(slip.help(format!("what can stand here: {}", known.join(", "))));
            }
        }
        Err(incomplete)
    }

    fn part(&mut self, spec: &'static PartSpec, node: &Node) -> (Part, Option<Likeness>) {
        let room_at = node.entries.last().map_or(node.name.at.end, |entry| entry.at.end);
        let part = Part {
            kind: spec.kind,
            name: None,
            given: Vec::new(),
            inside: Vec::new(),
            at: self.span(&node.at),
            head: self.span(&node.name.at),
            word: self.span(&node.name.at),
            room: self.span(&(room_at..room_at)),
            unread: node.unread == Unread::Itself,
            incomplete: if node.unread == Unread::Inside { hidden_in(spec) } else { Incomplete::default() },
            via: Vec::new(),
            likeness: None,
        };
        let mut draft = Draft { part, likeness: None, meant: Vec::new(), nameless: false };
        let mut arguments = Arguments::of(spec);
        for entry in &node.entries {
            match &entry.key {
                None => self.argument(spec, &mut draft, &mut arguments, entry),
                Some(key) if &*key.text == LIKE => self.likeness(&mut draft, entry),
                Some(key) => self.property(spec, &mut draft, &key.text, &key.at, entry),
            }
        }
        if let Some(name) = &draft.part.name {
            draft.part.head.bytes.end = draft.part.head.bytes.end.max(name.at.bytes.end);
        }
        for child in &node.children {
            self.child(spec, &mut draft, child);
        }
        let Draft { mut part, likeness, meant, nameless } = draft;
        for (fact, at) in meant {
            // Something is said of it, though it cannot be told what: it is unknown, and not absent.
            part.fill(Given { fact: fact.id, value: Value::Unknown, at, via: None });
        }
        if !part.unread {
            self.required(spec, &part, likeness.is_some(), nameless);
        }
        (part, likeness)
    }

    /// Notes by which `like` a part takes another as its starting point.
    fn likeness(&mut self, draft: &mut Draft, entry: &Entry) {
        let at = self.span(&entry.value_at);
        if let Some(earlier) = &draft.likeness {
            self.slips.push(
                Slip::new("text/property-twice", at, format!("`{LIKE}` is said twice of this part"))
                    .help("the first one counts; let the pattern itself be like the other")
                    .related(earlier.at.clone(), "said here first"),
            );
            return;
        }
        draft.likeness = Some(Likeness { name: entry_text(entry), at });
    }

    /// A node inside a part: a part of its own, or a property written as a line.
    fn child(&mut self, spec: &'static PartSpec, draft: &mut Draft, node: &Node) {
        let word = &*node.name.text;
        let here = vocabulary::parts().iter().filter(move |inner| spec.may_contain(inner.kind));
        let is_part = here.clone().any(|inner| inner.word == word);
        if !is_part && let Some(fact) = spec.properties().find(|fact| fact.name == word) {
            self.property_line(fact, &mut draft.part, node);
            return;
        }
        if !is_part && word == LIKE && spec.top {
            match node.entries.iter().find(|entry| entry.key.is_none()) {
                Some(entry) => self.likeness(draft, entry),
                None => self.slips.push(
                    Slip::new("text/value-not-understood", self.span(&node.at), format!("`{LIKE}` has no value"))
                        .help(format!("write {LIKE} and the name of the part to start from")),
                ),
            }
            return;
        }
        let place = format!("inside `{}`", spec.word);
        if !is_part && self.near_property(spec, draft, node, here.clone()) {
            return;
        }
        let part = &mut draft.part;
        match self.known_kind(node, here, &place) {
            Ok(inner) => {
                let own = inner;
                let (mut inner, likeness) = self.part(inner, node);
                if own.top {
                    // A pump stands in its water line as well as at the top of a file, where its patterns are.
                    inner.likeness = likeness;
                } else if let Some(likeness) = likeness {
                    self.slips.push(
                        Slip::new("text/unknown-property", likeness.at, "`like` works on parts at the top of a file")
                            .help("write the pattern's values here"),
                    );
                }
                if inner.unread {
                    part.incomplete.kinds.insert(inner.kind);
                }
                part.inside.push(inner);
            }
            Err(incomplete) => part.incomplete.add(&incomplete),
        }
    }

    /// Reports a line whose word is nearly a property of the part; says whether it did.
    fn near_property(
        &mut self,
        spec: &'static PartSpec,
        draft: &mut Draft,
        node: &Node,
        here: impl Iterator<Item = &'static PartSpec>,
    ) -> bool {
        let word = &*node.name.text;
        if vocabulary::part_by_word(word).is_some() || here.into_iter().any(|inner| inner.also.contains(&word)) {
            return false;
        }
        let Some(near) = meant_property(spec, word) else { return false };
        self.unknown_property(spec, draft, word, &node.name.at, Some(near));
        true
    }

    fn property_line(&mut self, fact: &'static FactSpec, part: &mut Part, node: &Node) {
        if node.unread == Unread::Itself {
            // Something is written, though it could not be read: it is unknown, and not absent.
            self.give(fact, part, Value::Unknown, self.span(&node.at));
            return;
        }
        if let Some(child) = node.children.first() {
            self.slips.push(
                Slip::new(
                    "text/too-much",
                    self.span(&child.name.at),
                    format!("nothing can stand inside `{}`", fact.name),
                )
                .help(format!("`{}` is a property: close its line, and write what follows beside it", fact.name)),
            );
            // What stands there is passed over, and may be anything that the part holds.
            part.incomplete.kinds.extend(&hidden_in(vocabulary::part(part.kind)).kinds);
        }
        let mut values = node.entries.iter().filter(|entry| entry.key.is_none()).peekable();
        if values.peek().is_some() && matches!(fact.kind, FactKind::ChoiceSet(_)) {
            self.choice_set(fact, part, values, self.span(&node.at));
            return;
        }
        let Some(entry) = values.next() else {
            self.slips.push(
                Slip::new("text/value-not-understood", self.span(&node.at), format!("`{}` has no value", fact.name))
                    .help(format!("write {} \"{}\"", fact.name, fact.example)),
            );
            self.give(fact, part, Value::Unknown, self.span(&node.at));
            return;
        };
        self.entry(fact, part, entry);
        for extra in values.chain(node.entries.iter().filter(|entry| entry.key.is_some())) {
            self.slips.push(
                Slip::new("text/too-much", self.span(&extra.at), format!("`{}` takes one value", fact.name))
                    .help("put the value in quotes when it is one text of several words"),
            );
        }
    }

    /// Several words of a set, one after the other on a line; unknown as a whole when one of them is, or cannot be read.
    fn choice_set<'e>(
        &mut self,
        fact: &'static FactSpec,
        part: &mut Part,
        entries: impl Iterator<Item = &'e Entry>,
        at: Span,
    ) {
        let mut set = Some(0_u64);
        for entry in entries {
            set = match value::read(fact, entry, &self.span(&entry.value_at)) {
                Ok(Value::ChoiceSet(more)) => set.map(|set| set | more),
                Ok(_) => None,
                Err(slip) => {
                    self.slips.push(slip);
                    None
                }
            };
        }
        self.give(fact, part, set.map_or(Value::Unknown, Value::ChoiceSet), at);
    }

    fn property(&mut self, spec: &'static PartSpec, draft: &mut Draft, key: &str, key_at: &Bytes, entry: &Entry) {
        match spec.properties().find(|fact| fact.name == key) {
            Some(fact) => self.entry(fact, &mut draft.part, entry),
            None => self.unknown_property(spec, draft, key, key_at, meant_property(spec, key)),
        }
    }

    /// Reports a property that the part does not have, and notes the one that seems to be meant.
    fn unknown_property(
        &mut self,
        spec: &'static PartSpec,
        draft: &mut Draft,
        key: &str,
        key_at: &Bytes,
        meant: Option<&'static FactSpec>,
    ) {
        let at = self.span(key_at);
        let slip = Slip::new("text/unknown-property", at.clone(), format!("`{}` has no property `{key}`", spec.word));
        self.slips.push(match meant {
            Some(meant) => {
                draft.meant.push((meant, at.clone()));
                let near = meant.name;
                slip.help(format!("did you mean `{near}`?")).mend(format!("write {near}"), at, near)
            }
            None => {
                let known: Vec<&str> = spec.properties().map(|fact| fact.name).collect();
                slip.help(format!("it has: {}", known.join(", ")))
            }
        });
    }

    /// Reads a value and gives it to the part; an unreadable value is unknown, and not absent.
    fn entry(&mut self, fact: &'static FactSpec, part: &mut Part, entry: &Entry) {
        let at = self.span(&entry.value_at);
        let value = match value::read(fact, entry, &at) {
            Ok(value) => value,
            Err(slip) => {
                self.slips.push(slip);
                Value::Unknown
            }
        };
        self.give(fact, part, value, at);
    }

    fn give(&mut self, fact: &'static FactSpec, part: &mut Part, value: Value, at: Span) {
        if let Some(earlier) = part.given.iter_mut().find(|given| given.fact == fact.id) {
            self.slips.push(
                Slip::new("text/property-twice", at, format!("`{}` is said twice of this part", fact.name))
                    .help("take one of them out; until then neither counts, unless they say the same")
                    .related(earlier.at.clone(), "said here first"),
            );
            if earlier.value != value {
                earlier.value = Value::Unknown;
            }
            return;
        }
        part.fill(Given { fact: fact.id, value, at, via: None });
    }

    fn argument(&mut self, spec: &'static PartSpec, draft: &mut Draft, arguments: &mut Arguments, entry: &Entry) {
        let text = entry_text(entry);
        let at = self.span(&entry.value_at);
        let part = &mut draft.part;
        if let Some(number) = arguments.take_count(entry) {
            self.entry(number, part, entry);
        } else if arguments.name {
            arguments.name = false;
            if spec.naming == Naming::Refers && &*text == value::UNKNOWN && !entry.quoted {
                // `way 1 unknown`: the way is there, and what it feeds is not known yet.
                draft.nameless = true;
                return;
            }
            if text.trim().is_empty() {
                self.slips.push(
                    Slip::new("text/missing-name", at, format!("this `{}` has an empty name", spec.word))
                        .help(format!("give it a name: {}", spec.example)),
                );
                draft.nameless = true;
                return;
            }
            part.name = Some(Name { text, at });
        } else if spec.fillers.contains(&&*text) && !entry.quoted {
            // A word for the sake of reading says nothing.
        } else if let Some(fact) = arguments.take() {
            self.entry(fact, part, entry);
        } else if let Some(rest) = arguments.rest {
            self.rest(rest, part, entry, text, at);
        } else {
            self.slips.push(
                Slip::new("text/too-much", at, format!("`{}` does not know what `{text}` is", spec.word))
                    .help(format!("write properties as name=value: {}", spec.example)),
            );
        }
    }

    /// One more of the arguments that may be many.
    fn rest(&mut self, fact: &'static FactSpec, part: &mut Part, entry: &Entry, text: Arc<str>, at: Span) {
        let existing = part.given.iter_mut().find(|given| given.fact == fact.id);
        let unknown = &*text == value::UNKNOWN && !entry.quoted;
        match (fact.kind, existing) {
            // A list with something unknown in it is unknown as a whole.
            (_, Some(Given { value: Value::Unknown, .. })) => {}
            (_, Some(existing)) if unknown => existing.value = Value::Unknown,
            (_, None) if unknown => part.fill(Given { fact: fact.id, value: Value::Unknown, at, via: None }),
            (FactKind::Part(_) | FactKind::Text, Some(Given { value: Value::Names(names), .. })) => {
                names.push((text, at))
            }
            (FactKind::Part(_) | FactKind::Text, None) => {
                part.fill(Given { fact: fact.id, value: Value::Names(vec![(text, at.clone())]), at, via: None });
            }
            (_, existing) => match value::read(fact, entry, &at) {
                Ok(Value::ChoiceSet(more)) => match existing {
                    Some(Given { value: Value::ChoiceSet(set), .. }) => *set |= more,
                    _ => part.fill(Given { fact: fact.id, value: Value::ChoiceSet(more), at, via: None }),
                },
                Ok(_) => {}
                Err(slip) => self.slips.push(slip),
            },
        }
    }

    fn required(&mut self, spec: &'static PartSpec, part: &Part, has_pattern: bool, nameless: bool) {
        if part.name.is_none() && !nameless && matches!(spec.naming, Naming::Required | Naming::Refers) {
            self.slips.push(
                Slip::new("text/missing-name", part.head.clone(), format!("this `{}` has no name", spec.word))
                    .help(format!("give it a name: {}", spec.example)),
            );
        }
        if has_pattern {
            return;
        }
        for fact in spec.properties().filter(|fact| fact.absent == Absent::Required) {
            if part.given(fact.id).is_none() {
                self.slips.push(
                    Slip::new(
                        "text/missing-entry",
                        part.head.clone(),
                        format!("this `{}` lacks `{}`", spec.word, fact.name),
                    )
                    .help(format!("{} Write {}=\"{}\".", fact.help, fact.name, fact.example)),
                );
            }
        }
    }
}

/// What a line that could not be read may hide inside a part: the kinds that can stand in it, and those in them.
pub fn hidden_in(spec: &PartSpec) -> Incomplete {
    let mut hidden = Incomplete::default();
    let mut open: Vec<PartKind> = spec.contains.to_vec();
    while let Some(kind) = open.pop() {
        if hidden.kinds.insert(kind) {
            open.extend(vocabulary::part(kind).contains);
        }
    }
    hidden
}

/// An argument or a name as text, whatever KDL takes it for.
fn entry_text(entry: &Entry) -> Arc<str> {
    match &entry.value {
        Scalar::Text(text) => (**text).into(),
        _ => (*entry.written).into(),
    }
}

/// The property that a word seems to mean: by the trade's other words, else by its spelling.
fn meant_property(spec: &'static PartSpec, word: &str) -> Option<&'static FactSpec> {
    let other = spec.properties().find(|fact| fact.also.contains(&word));
    other.or_else(|| {
        let near = vocabulary::nearest(word, spec.properties().map(|fact| fact.name))?;
        spec.properties().find(|fact| fact.name == near)
    })
}

/// Notes that a part is passed over: it hides itself and all that may stand within it.
fn add_with_inside(incomplete: &mut Incomplete, spec: &PartSpec) {
    incomplete.kinds.insert(spec.kind);
    incomplete.add(&hidden_in(spec));
}

/// Where a part stands, for a message.
fn places_of(spec: &PartSpec) -> String {
    let mut places: Vec<String> = vocabulary::parts()
        .iter()
        .filter(|outer| outer.may_contain(spec.kind))
        .map(|outer| format!("inside `{}`", outer.word))
        .collect();
    if spec.top {
        places.insert(0, "at the top of a file".to_owned());
    }
    places.join(" or ")
}

/// The arguments that a part still takes.
struct Arguments {
    name: bool,
    facts: Vec<&'static FactSpec>,
    rest: Option<&'static FactSpec>,
}

impl Arguments {
    fn of(spec: &'static PartSpec) -> Self {
        let mut facts: Vec<(u8, &FactSpec)> = Vec::new();
        let mut rest = None;
        for fact in spec.properties() {
            match fact.written {
                Written::Argument(position) => facts.push((position, fact)),
                Written::Rest(_) => rest = Some(fact),
                Written::Property | Written::Not => {}
            }
        }
        // The next argument is taken from the end.
        facts.sort_by_key(|(position, _)| std::cmp::Reverse(*position));
        Self { name: spec.naming != Naming::Never, facts: facts.into_iter().map(|(_, fact)| fact).collect(), rest }
    }

    /// A number before the name, where the part is numbered (`way 1 "water pump"`).
    fn take_count(&mut self, entry: &Entry) -> Option<&'static FactSpec> {
        let numbered = self.facts.last().is_some_and(|fact| fact.kind == FactKind::Count);
        if numbered && matches!(entry.value, Scalar::Whole(_)) { self.facts.pop() } else { None }
    }

    fn take(&mut self) -> Option<&'static FactSpec> {
        self.facts.pop()
    }
}
