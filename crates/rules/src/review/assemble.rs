//! A judgement with all that a finding carries.

use super::slips::place;
use super::values;
use super::written;
use crate::finding::{FactUsed, Finding, Mend, Outcome, Related};
use crate::rule::{Rule, RuleMend};
use crate::signal::Region;
use design::{Build, CaseId, PartId, Reader};
use quantity::System;
use spec::Via;
use vocabulary::FactId;

/// The most facts that a finding shows.
const MOST_FACTS: usize = 12;

/// The most other places that a finding points to.
const MOST_RELATED: usize = 6;

/// Makes findings of judgements.
pub struct Assembly<'r, 'b> {
    /// The facts.
    pub reader: &'r mut Reader<'b>,
    /// The units to write in.
    pub units: System,
}

impl Assembly<'_, '_> {
    /// The finding of a rule on a part.
    pub fn finding(
        &mut self,
        rule: &Rule,
        region: Region,
        values: &[f64],
        part: PartId,
        case: CaseId,
        outcome: Outcome,
    ) -> Finding {
        let build = self.reader.build();
        let fails = matches!(outcome, Outcome::Fails { .. });
        let reads = self.reads(rule, values, part, case, fails);
        let witnesses = match &rule.must {
            Some(must) if fails => must.witnesses(self.reader, part, case, values),
            _ => Vec::new(),
        };
        let message = self.render(&rule.tell, part, case, values);
        let remedy = self.render(&rule.remedy, part, case, values);
        let facts = if fails { self.facts(&reads, case) } else { Vec::new() };
        let (circumstances, sources) = if fails { self.reader.circumstances(part) } else { (Vec::new(), Vec::new()) };
        let about = build.part(part);
        Finding {
            rule: rule.name.as_str().into(),
            title: rule.title.clone(),
            signal: rule.signal,
            outcome,
            part: about.title.to_string(),
            part_key: about.key.to_string(),
            place: place(&about.head),
            related: related(build, part, &witnesses, &sources, &reads),
            message,
            why: rule.why.clone(),
            remedy,
            caution: rule.caution.clone(),
            facts,
            circumstances,
            region: (region != Region::Any).then_some(region),
            case: self.reader.cases().title(case, crate::judge::axes(rule)),
            sources: rule
                .sources
                .iter()
                .filter(|source| region == Region::Any || source.regions.is_empty() || source.regions.contains(&region))
                .cloned()
                .collect(),
            mend: rule.mend.as_ref().and_then(|mend| edit(build, mend, written(build, part))),
            waived: None,
            follow: Vec::new(),
            fingerprint: String::new(),
        }
    }

    fn render(&mut self, template: &crate::expression::Template, part: PartId, case: CaseId, values: &[f64]) -> String {
        let (build, units) = (self.reader.build(), self.units);
        template.render(self.reader, part, case, values, &|shown| values::shown(build, shown, units))
    }

    /// The facts that the judgement read, in order; of a failure those of what must hold, since that the rule applies is
    /// plain from the finding.
    fn reads(&mut self, rule: &Rule, values: &[f64], part: PartId, case: CaseId, fails: bool) -> Vec<(PartId, FactId)> {
        let mut reads: Vec<(PartId, FactId)> = Vec::new();
        let when = rule.when.as_ref().filter(|_| !fails);
        for expression in when.into_iter().chain(&rule.must) {
            for read in expression.reads(self.reader, part, case, values) {
                if !reads.contains(&read) {
                    reads.push(read);
                }
            }
        }
        reads
    }

    /// The facts that help a builder to follow: numbers first of all, with their working.
    fn facts(&mut self, reads: &[(PartId, FactId)], case: CaseId) -> Vec<FactUsed> {
        let units = self.units;
        reads
            .iter()
            .filter(|(_, fact)| {
                // Links between parts and bare names say nothing by themselves.
                !matches!(
                    vocabulary::fact_spec(*fact).kind,
                    vocabulary::FactKind::Part(_) | vocabulary::FactKind::Parts(_) | vocabulary::FactKind::Text
                )
            })
            .take(MOST_FACTS)
            .map(|(part, fact)| values::fact_used(self.reader, *part, *fact, case, units))
            .collect()
    }
}

/// The other places: what failed among a list's members, the sources of the current, and the patterns that values came from.
fn related(
    build: &Build,
    part: PartId,
    witnesses: &[PartId],
    sources: &[PartId],
    reads: &[(PartId, FactId)],
) -> Vec<Related> {
    let own = build.part(part);
    let mut related: Vec<Related> = Vec::new();
    let mut add = |span: &spec::Span, label: String| {
        let place = place(span);
        if *span != own.head && !related.iter().any(|other| other.place == place) && related.len() < MOST_RELATED {
            related.push(Related { place, label });
        }
    };
    for witness in witnesses {
        let witness = build.part(*witness);
        add(&witness.head, witness.title.to_string());
    }
    for source in sources {
        let source = build.part(*source);
        add(&source.head, format!("a source of its current: {}", source.title));
    }
    let taken = reads.iter().filter_map(|(part, fact)| build.part(written(build, *part)).given(*fact));
    let own_given = build.part(written(build, part)).given.iter();
    for given in taken.chain(own_given) {
        match &given.via {
            Some(Via::Like(_)) => add(&given.at, "taken over from this pattern".to_owned()),
            Some(Via::Defaults(_) | Via::Include(_)) | None => {}
        }
    }
    related
}

/// The edit of a rule on a part.
fn edit(build: &Build, mend: &RuleMend, part: PartId) -> Option<Mend> {
    let RuleMend::Write { property, value } = mend;
    let written = build.part(part);
    let fact = vocabulary::part(written.kind).fact(property).filter(|fact| fact.given)?;
    let title = format!("write {property}={value}");
    Some(match written.given(fact.id) {
        // A value that came from a pattern or a default is overridden here, not changed there.
        Some(given) if given.via.is_none() => Mend { title, place: place(&given.at), text: value.clone() },
        _ => Mend { title, place: place(&written.room), text: format!(" {property}={value}") },
    })
}
