//! The named values of a rule: one figure per region.

use super::figure::read_figure;
use super::form::{Reader, all, argument, property_text};
use super::sheet::FigurePlaces;
use crate::expression::{ValueUse, name_taken};
use crate::rule::RuleValue;
use crate::signal::Region;
use quantity::Dimension;
use spec::text::Node;
use vocabulary::PartKind;

/// Reads the named values of a rule about a part kind in a pack.
pub(super) fn read(
    reader: &mut Reader,
    rule: &Node,
    about: PartKind,
    pack: &str,
) -> (Vec<RuleValue>, Vec<FigurePlaces>) {
    let mut values: Vec<RuleValue> = Vec::new();
    let mut places = Vec::new();
    for line in all(rule, "value") {
        let Some((name, name_at)) = argument(line, 0) else {
            continue;
        };
        let is_name = name.starts_with(|first: char| first.is_ascii_lowercase())
            && name.chars().all(|letter| letter.is_ascii_lowercase() || letter.is_ascii_digit() || letter == '_');
        if !is_name {
            let help = "A name is of small letters, digits and `_`, so that the expressions can write it.";
            reader.fault(name_at.clone(), format!("\"{name}\" is no name of a value"), help);
        } else if values.iter().any(|value| value.name == name) {
            reader.fault(name_at.clone(), format!("the value `{name}` stands twice"), "Give one of them another name.");
        } else if let Some(taken) = name_taken(name, about) {
            reader.fault(name_at.clone(), taken, "Give the value a name that says what it limits.");
        }
        let dimension = property_text(line, "dimension").and_then(|(word, at)| {
            let dimension = Dimension::from_name(word);
            if dimension.is_none() {
                let help = "It is one of the vocabulary's: length, current, acceleration, …";
                reader.fault(at, format!("`{word}` is no dimension"), help);
            }
            dimension
        });
        let help = match property_text(line, "help") {
            Some((help, _)) if !help.trim().is_empty() => help.to_owned(),
            _ => {
                reader.fault(name_at.clone(), "the value does not say what it is", "Add `help=` with one line.");
                String::new()
            }
        };
        let mut figures = Vec::new();
        let mut shared: Option<Dimension> = dimension;
        let mut at = Vec::new();
        for region in Region::ALL {
            let Some((text, figure_at)) = property_text(line, region.word()) else {
                continue;
            };
            let figure = match read_figure(text, dimension) {
                Ok(figure) => figure,
                Err((message, help)) => {
                    reader.fault(figure_at, message, help);
                    continue;
                }
            };
            if *shared.get_or_insert(figure.dimension) != figure.dimension {
                let first = shared.map(Dimension::name).unwrap_or_default();
                let message =
                    format!("the figures of `{name}` differ in kind: {first} and {}", figure.dimension.name());
                reader.fault(figure_at, message, "Give all figures of a value in units of one dimension.");
                continue;
            }
            figures.push((*region, figure.value, text.to_owned()));
            at.push(figure_at);
        }
        let keyed = Region::ALL.iter().any(|region| property_text(line, region.word()).is_some());
        if !keyed {
            let help = "Add `any=\"…\"`, or one figure per region.";
            reader.fault(name_at.clone(), format!("the value `{name}` has no figure"), help);
        } else if let Some(own) = Region::from_word(pack).filter(|region| *region != Region::Any)
            && let Some(foreign) = figures.iter().position(|(region, ..)| *region != own && *region != Region::Any)
            && let Some(foreign_at) = at.get(foreign)
        {
            let help = format!("The pack `{}` applies there only: give `{}=` or `any=`.", own.word(), own.word());
            reader.fault(foreign_at.clone(), "the figure is never used: it is for a region of another pack", help);
        }
        values.push(RuleValue { name: name.to_owned(), help, figures });
        places.push(FigurePlaces { name_at, dimension: shared.unwrap_or(Dimension::RATIO), at });
    }
    (values, places)
}

/// A value that neither `when` nor `must` names decides nothing, and moving it would be noticed by no example.
pub(super) fn check_used(reader: &mut Reader, values: &[RuleValue], figures: &[FigurePlaces], used: &[ValueUse]) {
    for (number, (value, places)) in values.iter().zip(figures).enumerate() {
        if !used.iter().any(|used| usize::from(used.value) == number) {
            let message = format!("the value `{}` is never used", value.name);
            let help = "Name it in `when` or `must`, or take it away.";
            reader.fault(places.name_at.clone(), message, help);
        }
    }
}
