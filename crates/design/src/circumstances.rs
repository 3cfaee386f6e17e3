//! What a builder wants to know around a finding on a run: both of its ends, and every source of its current.

use crate::circuitry::End;
use crate::known::PartId;
use crate::methods::run_end::sources_behind;
use crate::reader::Reader;

impl Reader<'_> {
    /// Both ends of the run that a part belongs to, a line each with what is attached there and the sources behind it; and
    /// those sources as parts. Nothing for a part of no run.
    pub fn circumstances(&self, part: PartId) -> (Vec<String>, Vec<PartId>) {
        let build = self.build();
        let circuitry = build.circuitry();
        let Some(&index) = circuitry.run_of.get(&part) else { return (Vec::new(), Vec::new()) };
        let Some(run) = circuitry.runs.get(index) else { return (Vec::new(), Vec::new()) };
        let mut lines = Vec::new();
        let mut sources: Vec<PartId> = Vec::new();
        for (end, word) in End::BOTH.into_iter().zip(["from", "to"]) {
            let here = match run.node(end) {
                Some(node) => {
                    let titles: Vec<String> = circuitry
                        .terminals(&[node])
                        .map(|terminal| build.part(terminal.thing).title.to_string())
                        .collect();
                    titles.join(", ")
                }
                None => "an end that is not described".to_owned(),
            };
            let behind: Vec<PartId> =
                sources_behind(self, index, end).into_iter().map(|terminal| terminal.thing).collect();
            let titles: Vec<&str> = behind.iter().map(|source| &*build.part(*source).title).collect();
            lines.push(if titles.is_empty() {
                format!("{word} {here}; no source behind it")
            } else {
                format!("{word} {here}; sources behind it: {}", titles.join(", "))
            });
            for source in behind {
                if !sources.contains(&source) {
                    sources.push(source);
                }
            }
        }
        (lines, sources)
    }
}
