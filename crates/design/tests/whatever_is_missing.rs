//! Of a whole build, whatever is taken out of it: nothing panics, and no fact becomes another known value.

mod support;

use design::{Build, Fact, Gap, Reader};
use std::collections::HashMap;
use support::{BRAMBLE, CASE, build, clean};
use vocabulary::FactId;

/// A value with parts by their keys, so that builds with other numbers compare.
fn words(build: &Build, fact: &Fact) -> String {
    match fact {
        Fact::Part(part) => format!("part {}", build.part(*part).key),
        Fact::Parts(parts) => {
            let mut keys: Vec<&str> = parts.members.iter().map(|part| &*build.part(*part).key).collect();
            keys.sort_unstable();
            format!("parts {keys:?}")
        }
        other => format!("{other:?}"),
    }
}

/// A trailer with a controller, alarms on wires, relays and the plug of a towing vehicle: what bramble has not.
const TRAILER: &str = r#"build Trailer { basis us; none shore gas water cooking toilet sleeping travel-seats; }
vehicle class=trailer
battery house chemistry=AGM voltage="12 V" capacity="100 Ah" internal-resistance="5 mohm"
battery starter chemistry=AGM voltage="12 V" capacity="100 Ah" internal-resistance="5 mohm" role=starter
trailer-plug "car plug" voltage="14.4 V" fuse="15 A" contact-rating="15 A" switched=yes
charger "tow charger" kind=dc-to-dc input="12 A" output="10 A" voltage="14.4 V"
busbar main rating="100 A"
busbar negative rating="100 A" bond="16 mm2" to=chassis
circuit "charge in" from="car plug" to="tow charger" {
    wire size="6 mm2" one-way="4 m" insulation="105 degC"
}
circuit "charge out" from="tow charger" to=main {
    fuse rating="15 A" class=T
    wire size="4 mm2" one-way="1 m" insulation="105 degC"
}
circuit "house main" from=house to=main {
    fuse rating="80 A" class=T
    disconnect isolator rating="100 A"
    wire size="25 mm2" one-way="1 m" insulation="105 degC"
}
circuit "breakaway feed" from=house to="breakaway switch" {
    fuse rating="30 A" class=T
    wire size="4 mm2" one-way="3 m" insulation="105 degC"
}
circuit heat from=main to="cabin heater" {
    fuse rating="15 A" class=T
    relay "heater relay" rating="20 A" worked-by=controller
    wire size="4 mm2" one-way="3 m" insulation="105 degC"
}
circuit feed from=main to=panel {
    fuse rating="20 A" class=T
    wire size="6 mm2" one-way="1 m" insulation="105 degC"
}
circuit horn from=starter to=horn {
    fuse rating="10 A" class=T
    wire size="2.5 mm2" one-way="1 m" insulation="105 degC" return=chassis
}
panel panel negative=negative fuse-class=T {
    way 1 brain fuse="3 A" wire="1 mm2" one-way="1 m" insulation="105 degC"
    way 2 "co alarm" fuse="3 A" wire="1 mm2" one-way="1 m" insulation="105 degC"
    way 3 pump fuse="10 A" wire="2.5 mm2" one-way="2 m" insulation="105 degC"
}
controller brain current="0.5 A" {
    operates "cabin heater" on-failure=off override=yes rating="5 A"
    operates pump on-failure=off override=yes rating="10 A"
}
heater "cabin heater" fuel=diesel current="1 A" surge="8 A"
pump pump current="3 A" surge="8 A"
appliance horn current="5 A"
alarm "co alarm" senses=carbon-monoxide power=wired
breakaway "breakaway switch" current="15 A" supply=own-battery
"#;

/// A van with faces of every kind, hot and cold water, a shower, frost and an air conditioner.
const HOME: &str = r#"build Home { basis eu; none shore gas cooking toilet travel-seats; }
vehicle class=van roof-colour=light
brief berths=2 off-grid="2 d" water-each="12 l/d" { winter "-8 degC"; summer "33 degC"; }
zone cabin kind=living fresh-air="40 m3/h" from="0, -900, 0 mm" size="3500 x 1800 x 1900 mm"
zone locker kind=garage heated=no
zone underfloor kind=outside
shell roof area="6.3 m2" {
    layer steel "1 mm"
    layer sheep-wool "50 mm" nominal="60 mm"
    layer plywood "4 mm" holds-vapour="5 m"
    rib spacing="500 mm" depth="40 mm" web="1 mm" flange="30 mm"
}
shell "side walls" area="14 m2" {
    layer steel "1 mm"
    layer polyisocyanurate "30 mm"
    layer plywood "4 mm"
    ribs "10 %"
    over-ribs "8 mm"
}
shell floor area="6.3 m2" u="0.9 W/m2K"
shell curtain face=cab area="3 m2" u="2.5 W/m2K"
window side area="0.4 m2" panes=double-acrylic covered-u="1.8 W/m2K"
heater warmer fuel=diesel output="2.5 kW" least-output="0.9 kW" duty="8 h/d" zone=cabin
heater pad kind=tank-pad for=fresh power="40 W"
tank fresh holds=fresh volume="90 l" insulation="20 mm" vent="12 mm" size="1000 x 400 x 250 mm" zone=underfloor
tank grey holds=grey volume="70 l" in-frost=open size="800 x 400 x 250 mm" zone=underfloor
water-line cold from=fresh {
    drain low lowest=yes
    strainer reach=hatch
    pump pump current="4 A" open-flow="10 l/min" cut-in="1.7 bar" cut-out="2.8 bar" zone=locker
    pressure-vessel volume="1 l" charge="1.5 bar"
    pipe size="15 mm" wall="2 mm" one-way="3 m" insulation="13 mm" trace="12 W" zone=underfloor
    boiler hot volume="10 l" temperature="55 degC" pasteurised="5 d" relief=yes relief-ends=outside drain=yes
    branch { pipe size="12 mm" one-way="1 m" zone=cabin; shower wash flow="5 l/min" slope="2 %" extract=fan; }
    tap sink flow="6 l/min"
}
waste-line sink to=grey bore="25 mm" one-way="1 m" fall="30 mm" trap=water zone=cabin
berth bed sleeps=2 base=mesh zone=cabin
appliance cooler cooling="1.5 kW" current="30 A"
battery house chemistry=AGM voltage="12 V" capacity="100 Ah"
circuit pumping from=house to=pump { fuse rating="10 A" class=T; wire size="2.5 mm2" one-way="1 m"; }
circuit warming from=house to=pad { fuse rating="10 A" class=T; wire size="2.5 mm2" one-way="1 m"; }
circuit cooling from=house to=cooler { fuse rating="40 A" class=T; wire size="10 mm2" one-way="1 m"; }
"#;

/// A bus with what stands around it: the exhaust of its engine, an awning, a ramp, and gas.
const BUS: &str = r#"build Bus { basis us eu au-nz; none power shore water cooking toilet; }
vehicle class=bus length="7 m" width="2.2 m" front-overhang="1 m" floor-height="600 mm"
brief seats=9 berths=1
zone saloon kind=living from="500, -1050, 0 mm" size="5400 x 2100 x 1900 mm" {
    vent low free-area="60 cm2" to=outside closable=no at="2000, -1050, 0 mm"
    vent high free-area="60 cm2" to=outside closable=no at="4600, -1050, 1600 mm" below-ceiling="250 mm"
}
zone store kind=living inside=saloon locks=yes from="5000, -1050, 0 mm" size="900 x 900 x 1900 mm"
zone box kind=gas sealed=yes reached=outside from="3400, -1100, -500 mm" size="500 x 400 x 480 mm" {
    vent low free-area="120 cm2" to=outside closable=no at="3600, -900, -500 mm"
}
zone underfloor kind=outside
exit front kind=door clear="800 x 1800 mm" at="1200, 1050, 0 mm" side=right leaf=outward opened-by=hand
exit rear kind=emergency-door clear="900 x 1400 mm" at="5900, 400, 0 mm" side=rear leaf=outward opened-by=hand
exit hatch kind=hatch clear="700 x 700 mm" at="3000, 0, 1900 mm" side=roof opened-by=hand
window pane opens=yes clear="600 x 400 mm" side=left at="2600, -1050, 1200 mm"
seat row belt=three-point from="1900, -1040, 0 mm" size="500 x 500 x 900 mm"
berth bunk from="3800, 300, 400 mm" size="1800 x 700 x 120 mm"
furnishing cupboard use=storage material=plywood from="3300, -1040, 0 mm" size="600 x 500 x 900 mm"
tank spare holds=petrol volume="20 l" zone=underfloor from="1700, 500, -400 mm" size="300 x 300 x 300 mm"
cylinder left gas=propane content="11 kg" zone=box
cylinder reserve gas=propane content="5 kg" zone=underfloor from="4600, 700, -450 mm" size="250 x 250 x 400 mm"
engine-exhaust fuel=diesel mouth="5800, 600, -350 mm" from="1200, 550, -420 mm" size="4500 x 120 x 120 mm"
awning annex from="1000, 1100, -600 mm" size="2500 x 2000 x 2400 mm" open-sides=1
ramp steps to=front length="2.6 m" clear-width="800 mm"
kept-free "side airbag" reason=airbag from="4100, 900, 1000 mm" size="550 x 150 x 600 mm"
fan "roof fan" flow="10 m3/min" takes-from=outside blows-to=space at="4000, 0, 1900 mm"
generator genset fuel=gas from="2600, 800, -450 mm" size="400 x 250 x 300 mm" {
    exhaust at="2700, 1120, -300 mm"
}
heater heater fuel=gas combustion=sealed from="3400, -1000, 50 mm" size="300 x 200 x 200 mm" {
    exhaust ends=under-floor at="3500, -800, -300 mm"
    air-inlet draws=room at="3500, -400, 60 mm"
}
extinguisher rating="8A 34B" at="1700, 1040, 400 mm"
"#;

/// The builds of which something is taken.
const BUILDS: [&str; 4] = [BRAMBLE, TRAILER, HOME, BUS];

type Facts = HashMap<(String, FactId), Result<(String, bool), String>>;

/// Every fact of every part: its value, and whether it is certain (a list may be incomplete); or its gaps.
fn facts(build: &Build) -> Facts {
    let mut reader = Reader::new(build);
    let mut facts = Facts::new();
    for (number, part) in build.parts() {
        for spec in vocabulary::part(part.kind).facts() {
            let value = match reader.fact(number, spec.id, CASE) {
                Ok(fact) => {
                    let certain = !matches!(&fact, Fact::Parts(parts) if !parts.complete);
                    if let Fact::Number(value) = fact {
                        assert!(value.is_finite(), "{} of {}", spec.name, part.key);
                    }
                    Ok((words(build, &fact), certain))
                }
                Err(gaps) => {
                    assert!(!gaps.is_empty(), "{} of {} is unknown, and nothing would settle it", spec.name, part.key);
                    assert!(
                        gaps.0.iter().all(|any| !any.0.is_empty()),
                        "{} of {}: no alternatives",
                        spec.name,
                        part.key
                    );
                    Err(gaps
                        .0
                        .iter()
                        .flat_map(|any| &any.0)
                        .map(|gap| support::words(build, gap))
                        .collect::<Vec<_>>()
                        .join(", "))
                }
            };
            let _ = reader.gaps(number, spec.id, CASE);
            let _ = reader.working(number, spec.id, CASE);
            facts.insert((part.key.to_string(), spec.id), value);
        }
        let _ = reader.circumstances(number);
    }
    facts
}

/// The facts that are known otherwise than before, in words.
fn changed(before: &Facts, after: &Facts) -> Vec<String> {
    let mut changed = Vec::new();
    for ((key, fact), value) in after {
        let Ok((value, certain)) = value else { continue };
        if !certain {
            continue;
        }
        let name = vocabulary::fact_spec(*fact).name;
        if name.contains("at-best") {
            // A bound moves with what is known.
            continue;
        }
        if name == "title" {
            // How a part is called is no claim about it: an end that is not described is called an open end.
            continue;
        }
        match before.get(&(key.clone(), *fact)) {
            Some(Ok((was, _))) if was == value => {}
            Some(Ok((was, _))) => changed.push(format!("{name} of {key} was {was} and is {value}")),
            Some(Err(gaps)) => changed.push(format!("{name} of {key} was unknown ({gaps}) and is {value}")),
            None => {}
        }
    }
    changed.sort();
    changed
}

/// The values of properties and arguments of a line, as byte ranges with the property's name: `key=value`, and the
/// argument of a line that is a property.
fn values(text: &str) -> Vec<(std::ops::Range<usize>, String)> {
    let mut found = Vec::new();
    let document = spec::text::read(text, &mut spec::text::BlockCache::default());
    let mut open: Vec<&spec::text::Node> = document.nodes.iter().collect();
    while let Some(node) = open.pop() {
        let is_part = vocabulary::part_by_word(&node.name.text).is_some();
        for entry in &node.entries {
            let at = entry.value_at.start as usize..entry.value_at.end as usize;
            match &entry.key {
                Some(key) if &*key.text != "like" => found.push((at, format!("{} {}", node.name.text, key.text))),
                None if !is_part => found.push((at, node.name.text.to_string())),
                _ => {}
            }
        }
        open.extend(&node.children);
    }
    found
}

#[test]
fn a_value_that_becomes_unknown_makes_no_fact_known_otherwise() {
    let mut wrong = Vec::new();
    for whole in BUILDS {
        let before = facts(&clean(whole));
        for (at, what) in values(whole) {
            let mut text = whole.to_owned();
            text.replace_range(at, "unknown");
            let after = facts(&build(&text));
            wrong.extend(changed(&before, &after).into_iter().map(|changed| format!("{what}=unknown: {changed}")));
        }
    }
    assert!(wrong.is_empty(), "{} facts:\n{}", wrong.len(), wrong.join("\n"));
}

#[test]
fn a_line_that_cannot_be_read_makes_no_fact_known_otherwise() {
    let mut wrong = Vec::new();
    for whole in BUILDS {
        let before = facts(&clean(whole));
        let mut start = 0;
        for line in whole.lines() {
            let (from, to) = (start, start + line.len());
            start = to + 1;
            // The head of a block, a line in it, or a whole part: what stands behind its name is spoilt.
            let words = line.trim_end_matches('{').trim_end();
            if line.trim().is_empty() || line.contains("//") || line.trim() == "}" || line.starts_with("/-") {
                continue;
            }
            let mut text = whole.to_owned();
            text.replace_range(from..to, &format!("{words} ={}", &line[words.len()..]));
            let spoilt = build(&text);
            assert!(!spoilt.slips.is_empty(), "{line}");
            let after = facts(&spoilt);
            wrong.extend(changed(&before, &after).into_iter().map(|changed| format!("{line}: {changed}")));
        }
    }
    assert!(wrong.is_empty(), "{} facts:\n{}", wrong.len(), wrong.join("\n"));
}

#[test]
fn a_build_with_any_line_deleted_answers_every_question() {
    let lines: Vec<&str> = BRAMBLE.lines().collect();
    for deleted in 0..lines.len() {
        let mut kept = lines.clone();
        kept.remove(deleted);
        assert!(facts(&build(&kept.join("\n"))).len() > 500, "{}", lines[deleted]);
    }
}

#[test]
fn every_worked_fact_has_a_method_and_no_gap_of_the_whole_build_is_a_circle() {
    assert_eq!(design::unbound_facts(), []);
    let build = clean(BRAMBLE);
    let mut reader = Reader::new(&build);
    for (number, part) in build.parts() {
        for spec in vocabulary::part(part.kind).facts() {
            let circular = reader
                .fact(number, spec.id, CASE)
                .err()
                .is_some_and(|gaps| gaps.0.iter().flat_map(|any| &any.0).any(|gap| matches!(gap, Gap::Circular(..))));
            assert!(!circular, "{} of {}", spec.name, part.key);
        }
    }
}
