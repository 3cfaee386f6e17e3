//! The text of a draft: what was answered, and what every such build has. What nobody was asked is `unknown`, and a comment
//! says where it is found.

use super::answers::Answers;
use super::mains;
use super::sizes::{Size, inverter_current, size};
use spec::text::write_name;
use std::fmt::Write;

/// What the panel's loads take together at most, A. Chosen: the feed of the panel is made for it.
const PANEL: f64 = 30.0;
/// What one charger brings at most, A. Chosen: its cable is made for it until its data sheet is known.
const CHARGER: f64 = 30.0;

/// The draft, laid out.
pub fn write(answers: &Answers) -> String {
    let mut text = Draft { text: String::new(), american: answers.regions.iter().any(|region| region == "us") };
    build(answers, &mut text);
    places(answers, &mut text);
    sources(answers, &mut text);
    circuits(answers, &mut text);
    panel(answers, &mut text);
    mains::write(answers, &mut text);
    living(answers, &mut text);
    // A draft that is not laid out as `tidy` does it would change at the first use of that command.
    spec::text::tidy(&text.text).unwrap_or(text.text)
}

/// A text that grows by lines.
pub struct Draft {
    text: String,
    /// Whether wires have American sizes.
    pub american: bool,
}

impl Draft {
    /// Adds a line.
    pub fn line(&mut self, line: &str) {
        // Writing to a text cannot fail.
        let _ = writeln!(self.text, "{line}");
    }

    /// Adds a heading.
    pub fn heading(&mut self, words: &str) {
        self.line(&format!("\n// ---- {words}\n"));
    }

    /// The cable of a fuse.
    pub fn cable(&self, size: Size) -> &'static str {
        if self.american { size.american } else { size.metric }
    }
}

fn build(answers: &Answers, text: &mut Draft) {
    text.line("/- kdl-version 2\n");
    text.line(
        "// A draft: fuses, cables and disconnects are proposals, to be checked against the makers' data sheets.",
    );
    text.line("// Where it says `unknown`, the comment says where the entry is found.\n");
    text.line(&format!("build {} {{", write_name(&answers.name)));
    text.line("stage draft // then review, and issued");
    text.line(&format!("basis {}", answers.regions.join(" ")));
    text.line(&format!("units {}", if text.american { "us" } else { "metric" }));
    let described = [
        ("shore", answers.shore),
        ("gas", answers.gas),
        ("water", answers.water),
        ("heat", answers.heater.is_some()),
        ("cooking", answers.cooking.is_some()),
        ("toilet", answers.toilet),
        ("sleeping", answers.sleeps > 0),
        ("travel-seats", answers.seats),
    ];
    let none: Vec<&str> = described.iter().filter(|(_, there)| !there).map(|(system, _)| *system).collect();
    if !none.is_empty() {
        text.line(&format!("none {}", none.join(" ")));
    }
    text.line("}\n");
    text.line(&format!("vehicle class={} {{", answers.vehicle));
    text.line("gross-mass unknown // from the plate of the vehicle");
    text.line("length unknown // overall, from its papers");
    text.line("width unknown // without mirrors, from its papers");
    text.line("}\n");
    text.line(&format!(
        "brief berths={} off-grid=unknown {{ // how long it lives on its own stores, as \"2 d\"",
        answers.sleeps
    ));
    text.line("winter unknown // the coldest night that it is used in");
    text.line("summer unknown // the hottest day that it is used in");
    text.line("}");
}

fn places(answers: &Answers, text: &mut Draft) {
    text.heading("places: x rearward of the front axle, y to the right of the centre line, z above the floor");
    if burns(&answers.heater) || burns(&answers.cooking) {
        text.line("zone cabin kind=living from=unknown size=unknown { // measure the living space");
        text.line(
            "vent low free-area=unknown to=outside closable=unknown // fixed openings for fresh air, net of mesh",
        );
        text.line("vent high free-area=unknown to=outside closable=unknown // measure, net of mesh and louvres");
        text.line("}");
    } else {
        text.line("zone cabin kind=living from=unknown size=unknown // measure the living space");
    }
    text.line("zone \"battery locker\" kind=battery sealed=unknown { // whether gas can pass from it into the cabin");
    text.line("vent low free-area=unknown to=outside // measure, net of mesh and louvres");
    text.line("vent high free-area=unknown to=outside // measure, net of mesh and louvres");
    text.line("}");
    if answers.gas {
        text.line("zone \"gas locker\" kind=gas sealed=unknown { // whether gas can pass from it into the cabin");
        text.line("vent low free-area=unknown to=outside // measure, net of mesh and louvres");
        text.line("}");
    }
    if in_a_box(answers) {
        text.line("zone \"heater box\" kind=locker sealed=unknown // whether gas can pass from it into the cabin");
    }
    text.line("exit \"main door\" clear=unknown side=unknown // measure");
    if answers.sleeps > 0 {
        text.line(
            "exit \"second way out\" clear=unknown side=unknown // a door, hatch or escape window, far from the first",
        );
    }
}

fn sources(answers: &Answers, text: &mut Draft) {
    text.heading("sources and stores");
    let (chemistry, lithium) = (&answers.chemistry, answers.chemistry == "LFP");
    /// Nominal voltage of one LFP cell, V, and of the lead system with which four of them in series work.
    const LITHIUM: (f64, f64) = (12.8, 12.0);
    let nominal = if lithium { answers.voltage / LITHIUM.1 * LITHIUM.0 } else { answers.voltage };
    let nominal = if lithium { format!("{nominal:.1}") } else { nominal.to_string() };
    text.line(&format!(
        "battery house chemistry={chemistry} voltage=\"{nominal} V\" capacity=\"{} Ah\" zone=\"battery locker\" {{",
        answers.capacity
    ));
    text.line("mass unknown // from its data sheet");
    text.line("terminals unknown // bolted, clamp, wing-nut or spring-clip");
    text.line("cover unknown // whether its live terminals are covered");
    if lithium {
        text.line("tested-to unknown // the safety standard in its data sheet");
        text.line("management cuts=unknown stops-charge-below=unknown // from its data sheet");
    }
    text.line("limits charge=unknown discharge=unknown // the largest currents, from its data sheet");
    text.line(
        "restraint \"to be designed\" holds forward=unknown sideways=unknown up=unknown // what it stands in a crash",
    );
    text.line("}");
    if answers.driving && answers.vehicle == "trailer" {
        text.line("trailer-plug \"tow plug\" pins=unknown fuse=unknown contact-rating=unknown switched=unknown // from the towing vehicle");
        charger("driving charger", "dc-to-dc", chemistry, "input=unknown input-voltage=unknown ", text);
    } else if answers.driving {
        text.line("battery starter role=starter chemistry=unknown voltage=unknown capacity=unknown // the base vehicle's own, from its label");
        text.line(
            "alternator engine output=unknown spare=unknown voltage=unknown from=starter // from the vehicle's maker",
        );
        charger("driving charger", "dc-to-dc", chemistry, "input=unknown input-voltage=unknown ", text);
    }
    if answers.solar {
        text.line("solar \"roof modules\" modules=unknown series=unknown power=unknown open-voltage=unknown short-current=unknown voltage-per-kelvin=unknown // from the data sheet of the modules");
        text.line(&format!(
            "solar-controller \"solar controller\" largest-input=unknown largest-input-current=unknown output=unknown voltage=unknown profile={chemistry} stops-when-cold=unknown zone=cabin // from its data sheet"
        ));
    }
    if answers.shore {
        charger("shore charger", "mains", chemistry, "draw=unknown ", text);
    }
    if let Some(power) = answers.inverter {
        text.line(&format!(
            "inverter \"main inverter\" power=\"{power} VA\" voltage=\"{} V\" surge=unknown idle=unknown on=unknown shutdown=unknown neutral-bond=unknown zone=cabin // from its data sheet; on: how long a day",
            mains::voltage(text.american)
        ));
    }
}

fn charger(name: &str, kind: &str, chemistry: &str, more: &str, text: &mut Draft) {
    text.line(&format!(
        "charger \"{name}\" kind={kind} {more}output=unknown voltage=unknown profile={chemistry} stops-when-cold=unknown zone=cabin // from its data sheet"
    ));
}

/// A circuit between a source and the busbar, with its fuse at the busbar's end: the battery drives the larger fault current.
fn onto_busbar(name: &str, from: &str, current: f64, text: &mut Draft) {
    let size = size(current);
    text.line(&format!("circuit \"{name}\" from=\"{from}\" to=\"main positive\" {{"));
    wire(text.cable(size), text);
    text.line(&format!(
        "fuse rating=\"{} A\" class=T // at the end of the battery, which drives the fault current",
        size.fuse
    ));
    text.line("}");
}

/// A wire whose length is not known.
pub fn wire(size: &str, text: &mut Draft) {
    text.line(&format!("wire size=\"{size}\" one-way=unknown // measure along its way"));
}

/// A circuit away from the busbar, with its fuse at the busbar.
fn off_busbar(name: &str, to: &str, current: f64, text: &mut Draft) {
    let size = size(current);
    text.line(&format!("circuit \"{name}\" from=\"main positive\" to=\"{to}\" {{"));
    text.line(&format!("fuse rating=\"{} A\" class=T", size.fuse));
    wire(text.cable(size), text);
    text.line("}");
}

fn circuits(answers: &Answers, text: &mut Draft) {
    text.heading("how the current gets there: a circuit is written in the order in which the current meets its parts");
    text.line("defaults {");
    text.line("wire insulation=\"105 degC\" strands=flexible return=pair standard=unknown // the standard printed on the cable");
    text.line("}");
    let drawn = answers.inverter.map_or(0.0, |power| inverter_current(power, answers.voltage));
    let main = size(PANEL + drawn);
    let bus = bus_rating(main.fuse);
    text.line(&format!("busbar \"main positive\" rating=\"{bus} A\" cover=yes"));
    let bond = if text.american { "4 AWG" } else { "25 mm2" };
    text.line(&format!("busbar \"main negative\" rating=\"{bus} A\" bond=\"{bond}\" to=chassis joint=unknown // how the bond is made on the vehicle's metal"));
    text.line("\ncircuit \"house main\" from=house to=\"main positive\" {");
    text.line(&format!("wire size=\"{}\" one-way=unknown // keep it short: nothing protects it", text.cable(main)));
    text.line(&format!("fuse rating=\"{} A\" class=T", main.fuse));
    text.line(&format!("disconnect \"house isolator\" rating=\"{bus} A\" voltage=unknown for=direct reach=unknown marked=yes // from its data sheet; where it is reached"));
    wire(text.cable(main), text);
    text.line("}");
    if let Some(power) = answers.inverter {
        off_busbar("inverter feed", "main inverter", inverter_current(power, answers.voltage), text);
    }
    if answers.driving {
        let (source, from) =
            if answers.vehicle == "trailer" { ("tow feed", "tow plug") } else { ("engine feed", "starter") };
        let size = size(CHARGER);
        text.line(&format!("circuit \"{source}\" from=\"{from}\" to=\"driving charger\" {{"));
        text.line(&format!("wire size=\"{}\" one-way=unknown // keep it short: nothing protects it", text.cable(size)));
        text.line(&format!("fuse rating=\"{} A\" class=T", size.fuse));
        wire(text.cable(size), text);
        text.line("}");
        onto_busbar("driving charge", "driving charger", CHARGER, text);
    }
    if answers.shore {
        onto_busbar("shore charge", "shore charger", CHARGER, text);
    }
    if answers.solar {
        text.line("circuit \"roof feed\" from=\"roof modules\" to=\"solar controller\" {");
        wire(text.cable(size(CHARGER)), text);
        text.line("disconnect \"roof isolator\" rating=\"32 A\" voltage=unknown for=direct reach=unknown marked=yes // above the highest voltage of the modules");
        text.line("}");
        onto_busbar("roof charge", "solar controller", CHARGER, text);
    }
    off_busbar("panel feed", "dc panel", PANEL, text);
}

/// A busbar or disconnect that carries what a fuse lets through, A: the steps in which they are sold (common practice).
fn bus_rating(fuse: u32) -> u32 {
    [150, 300, 600].into_iter().find(|rating| fuse <= *rating).unwrap_or(fuse)
}

fn panel(answers: &Answers, text: &mut Draft) {
    text.heading("what the panel feeds");
    let (thin, thick) = if text.american { ("14 AWG", "12 AWG") } else { ("2.5 mm2", "4 mm2") };
    let mut ways = vec![("cabin lamps", 5, thin)];
    if answers.water {
        ways.push(("water pump", 10, thick));
    }
    if answers.heater.is_some() {
        ways.push(("cabin heater", 15, thick));
    }
    text.line("panel \"dc panel\" rating=\"60 A\" negative=\"main negative\" cover=unknown fuse-class=unknown device-voltage=unknown interrupting=unknown { // from the data sheet of its fuses");
    for (index, (name, fuse, wire)) in ways.iter().enumerate() {
        text.line(&format!(
            "way {} \"{name}\" fuse=\"{fuse} A\" wire=\"{wire}\" one-way=unknown // measure along its way",
            index + 1
        ));
    }
    text.line("}");
    text.line(
        "lamp \"cabin lamps\" power=unknown duty=unknown zone=cabin // of all together; how long a day, as \"4 h/d\"",
    );
}

/// Whether the heater stands in a box of its own: no burner stands among the passengers of a bus.
fn in_a_box(answers: &Answers) -> bool {
    answers.vehicle == "bus" && burns(&answers.heater)
}

/// Whether a heater or a cooker burns something.
fn burns(fuel: &Option<String>) -> bool {
    fuel.as_deref().is_some_and(|fuel| fuel != "electric")
}

/// The line from the cylinder to what burns its gas, if anything does.
fn gas_line(answers: &Answers, text: &mut Draft) {
    let appliances = [(&answers.heater, "cabin heater"), (&answers.cooking, "hob")];
    let burners: Vec<&str> =
        appliances.into_iter().filter(|(fuel, _)| fuel.as_deref() == Some("gas")).map(|(_, name)| name).collect();
    if burners.is_empty() {
        return;
    }
    text.line("gas-line \"gas main\" from=\"gas cylinder\" { // in the order in which the gas meets its parts");
    text.line("regulator pressure=unknown capacity=unknown // from its label");
    text.line("hose one-way=unknown replace-by=unknown // from its print");
    text.line("pipe size=unknown material=unknown one-way=unknown // measure along its way");
    for name in burners {
        text.line("branch {");
        text.line(&format!("valve \"{name} valve\" reach=unknown // how far it is from the appliance"));
        text.line(&format!("feeds \"{name}\""));
        text.line("}");
    }
    text.line("}");
}

fn living(answers: &Answers, text: &mut Draft) {
    text.heading("heat, gas, alarms");
    if let Some(fuel) = &answers.heater {
        if fuel != "gas" {
            text.line(&format!("tank {fuel} holds={fuel} volume=unknown zone=unknown // whose tank it is, and where"));
        }
        let zone = if in_a_box(answers) { "\"heater box\"" } else { "cabin" };
        text.line(&format!("heater \"cabin heater\" fuel={fuel} output=unknown current=unknown surge=unknown duty=unknown combustion=sealed zone={zone} {{ // from its data sheet"));
        if fuel != "gas" {
            text.line(&format!("fuel-line from={fuel} one-way=unknown // measure along its way"));
        }
        text.line("exhaust at=unknown material=unknown // where its mouth is");
        text.line("intake at=unknown // where its mouth is");
        text.line("hot-surface clearance=unknown // from its instructions");
        text.line("}");
    }
    if let Some(fuel) = &answers.cooking {
        let fuel = if fuel == "electric" { "none" } else { fuel };
        let takes =
            if fuel == "none" { "power=unknown protective-class=unknown duty=unknown" } else { "output=unknown" };
        text.line(&format!("cooker hob fuel={fuel} {takes} zone=cabin // from its data sheet"));
    }
    if answers.gas {
        text.line(
            "cylinder \"gas cylinder\" gas=unknown content=unknown mass=unknown zone=\"gas locker\" // from its label",
        );
        gas_line(answers, text);
    }
    text.line("alarm \"smoke alarm\" senses=smoke power=own-battery zone=cabin at=unknown // where it hangs");
    if burns(&answers.heater) || burns(&answers.cooking) || answers.gas {
        text.line(
            "alarm \"co alarm\" senses=carbon-monoxide power=own-battery zone=cabin at=unknown // where it hangs",
        );
    }
    if answers.gas {
        text.line("alarm \"gas alarm\" senses=gas power=own-battery zone=cabin at=unknown // low, for gas sinks");
    }
    text.line("extinguisher rating=unknown zone=cabin at=unknown // from its label; near a way out");
    if answers.water {
        text.heading("water");
        text.line("tank fresh holds=fresh volume=unknown zone=unknown // from its label; where it stands");
        text.line("tank grey holds=grey volume=unknown zone=unknown // from its label; where it stands");
        text.line("water-line cold from=fresh {");
        text.line(
            "pump \"water pump\" current=unknown surge=unknown duty=unknown // from its data sheet; how long a day",
        );
        text.line(&format!(
            "pipe size=\"{}\" one-way=unknown // measure along its way",
            if text.american { "1/2 in" } else { "12 mm" }
        ));
        text.line("tap \"kitchen tap\"");
        text.line("}");
    }
    if answers.sleeps > 0 || answers.toilet || answers.seats {
        text.heading("people");
    }
    if answers.sleeps > 0 {
        text.line(&format!("berth bed sleeps={} zone=cabin from=unknown size=unknown // measure", answers.sleeps));
    }
    if answers.toilet {
        text.line("toilet kind=unknown // cassette, composting, portable or marine");
    }
    if answers.seats {
        text.line("seat \"rear seat\" belt=unknown original=unknown // three-point, lap or none; whether it is the vehicle's own");
    }
}
