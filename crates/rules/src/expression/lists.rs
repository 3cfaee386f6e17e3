//! The type check of what is asked of lists: `all`, `exists`, `exists_one`, `filter`, `size`, and totals over `map`.

use super::check::{Checker, Typed, Variable};
use super::node::{Each, Ix, MOST_VARIABLES, Node, Total};
use super::syntax::{Syntax, SyntaxKind};
use super::value_type::{Kinds, ValueType};
use std::ops::Range;
use vocabulary::nearest;

const METHODS: &[&str] = &["all", "exists", "exists_one", "filter", "map", "size", "count", "sum", "min", "max"];

impl Checker<'_> {
    /// `target.name(arguments)`.
    pub fn method(
        &mut self,
        target: &Syntax,
        name: &str,
        name_at: &Range<usize>,
        arguments: &[Syntax],
        at: &Range<usize>,
    ) -> Option<Typed> {
        match (name, arguments) {
            ("all", [variable, body]) => self.each(Each::All, target, variable, body),
            ("exists", [variable, body]) => self.each(Each::Exists, target, variable, body),
            ("exists_one", [variable, body]) => self.each(Each::One, target, variable, body),
            ("filter", [variable, body]) => self.filter(target, variable, body),
            ("size" | "count", []) => self.size(target),
            ("sum", []) => self.total(Total::Sum, target, name),
            ("min", []) => self.total(Total::Least, target, name),
            ("max", []) => self.total(Total::Most, target, name),
            ("map", [_, _]) => {
                self.fault(
                    name_at,
                    "a list of numbers is no answer of its own",
                    "end it with .sum(), .min() or .max()",
                );
                None
            }
            _ if METHODS.contains(&name) => {
                let wanted = match name {
                    "size" | "count" | "sum" | "min" | "max" => "nothing between its brackets",
                    _ => "a variable and a condition",
                };
                self.fault(at, format!("`{name}` takes {wanted}"), format!("write {}", pattern(name)));
                None
            }
            _ => {
                let help = match nearest(name, METHODS.iter().copied()) {
                    Some(near) => format!("did you mean `{near}`?"),
                    None => format!("lists have {}", METHODS.join(", ")),
                };
                self.fault(name_at, format!("nothing can be asked with `{name}`"), help);
                None
            }
        }
    }

    /// A piece that must be a list of parts.
    fn list(&mut self, syntax: &Syntax) -> Option<(Ix, Kinds)> {
        let typed = self.expression(syntax)?;
        if let ValueType::Parts(kinds) = typed.kind {
            return Some((typed.node, kinds));
        }
        let message = format!("`{}` is {}, not a list of parts", self.written_at(&syntax.at), typed.kind.words());
        self.fault(&syntax.at, message, "");
        None
    }

    /// Reads a body with a new variable over the members of a list.
    fn over<T>(
        &mut self,
        (list, kinds): (Ix, Kinds),
        variable: &Syntax,
        body: impl FnOnce(&mut Self) -> Option<T>,
    ) -> Option<(Ix, u8, T)> {
        let SyntaxKind::Name(name) = &variable.kind else {
            let message = format!("`{}` cannot name the members of a list", self.written_at(&variable.at));
            self.fault(&variable.at, message, "write a word of your own: x");
            return None;
        };
        let slot = self.alive.len();
        if slot >= MOST_VARIABLES {
            let message = format!("more than {MOST_VARIABLES} lists stand inside each other");
            self.fault(&variable.at, message, "split the rule into several");
            return None;
        }
        let fresh = self.new_variable(name, &variable.at);
        // A variable with a refused name still shadows while its body is read, so that the body raises no further faults.
        self.alive.push(Variable { name: name.clone(), kinds });
        let body = body(self);
        self.alive.pop();
        fresh.then_some(())?;
        Some((list, u8::try_from(slot).ok()?, body?))
    }

    fn each(&mut self, how: Each, target: &Syntax, variable: &Syntax, body: &Syntax) -> Option<Typed> {
        let list = self.list(target)?;
        let (list, slot, body) =
            self.over(list, variable, |this| this.flag(body, "each member is asked for a flag"))?;
        let node = self.push(Node::Each { how, list, slot, body });
        Some(Typed { node, kind: ValueType::Flag })
    }

    fn filter(&mut self, target: &Syntax, variable: &Syntax, condition: &Syntax) -> Option<Typed> {
        let (list, kinds) = self.list(target)?;
        let kept = variable.word().map_or(kinds.clone(), |name| self.narrowed(name, &kinds, condition));
        let (list, slot, body) =
            self.over((list, kinds), variable, |this| this.flag(condition, "each member is asked for a flag"))?;
        let node = self.push(Node::Kept { list, slot, body });
        Some(Typed { node, kind: ValueType::Parts(kept) })
    }

    /// The number of members.
    pub fn size(&mut self, target: &Syntax) -> Option<Typed> {
        let list = match &target.kind {
            SyntaxKind::Call { target: Some(list), name, arguments, .. } if name == "map" && arguments.len() == 2 => {
                list
            }
            _ => target,
        };
        let (list, _) = self.list(list)?;
        let node = self.push(Node::Size(list));
        Some(Typed { node, kind: ValueType::COUNT })
    }

    /// The sum, the least or the most of a number of each member.
    fn total(&mut self, how: Total, target: &Syntax, name: &str) -> Option<Typed> {
        let (list, variable, body) = match &target.kind {
            SyntaxKind::Call { target: Some(list), name: map, arguments, .. } if map == "map" => match arguments
                .as_slice()
            {
                [variable, body] => (list, variable, body),
                _ => {
                    self.fault(&target.at, "`map` takes a variable and a number", format!("write {}", pattern("map")));
                    return None;
                }
            },
            _ => {
                let written = self.written_at(&target.at);
                let help = format!("say which number: {written}.map(x, x.…).{name}()");
                self.fault(&target.at, format!("`{name}` needs a number of each member"), help);
                return None;
            }
        };
        let list = self.list(list)?;
        let why = "a total is made of numbers";
        let (list, slot, (body, dimension, count)) = self.over(list, variable, |this| {
            let (typed, dimension, count) = this.number(body, why)?;
            if how == Total::Sum && dimension.is_point() {
                this.fault(
                    &body.at,
                    "points on a thermometer have no sum",
                    "take .min() or .max(), or sum differences",
                );
                return None;
            }
            Some((typed.node, dimension, count))
        })?;
        let node = self.push(Node::Total { how, list, slot, body });
        Some(Typed { node, kind: ValueType::Number { dimension, count } })
    }
}

fn pattern(name: &str) -> &'static str {
    match name {
        "size" | "count" => "list.size()",
        "sum" | "min" | "max" | "map" => "list.map(x, x.number).sum()",
        "filter" => "list.filter(x, condition)",
        _ => "list.all(x, condition)",
    }
}
