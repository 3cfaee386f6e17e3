//! A real rule proved through the reader and the linker that a review uses.

use rules::pack::PackFault;
use rules::prove::run;

const FILE: &str = "rules/practice/wiring.rules.kdl";

const RULE: &str = r##"fixture "24 V van" #"""
    build Test {
        stage review
        basis eu
    }
    vehicle class=van
    battery house chemistry=LFP voltage="25.6 V" capacity="200 Ah"
    busbar "main positive" rating="300 A"
    circuit "house main" from=house to="main positive" {
        fuse rating="80 A" class=T
        wire size="35 mm2" one-way="1.0 m" insulation="105 degC" strands=flexible return=pair
    }
    """#
rule "wiring/device-above-limit" warning about=device {
    title "Protective device above the limit of the shop"
    classes van bus
    value most any="80 A" us="100 A" help="the largest device that the shop fits"
    when "current_kind == direct"
    must "rating <= most"
    tell "{title} in {run.title} is larger than {most}."
    why "The shop holds no larger spares."
    remedy "Split the circuit."
    caution "A device without a spare is bridged on the road."
    source "our own" mark=chosen
    impossible "current_kind == direct" side=no reason="kept small: these examples hold no mains"
    example "as large as the shop fits" holds on="24 V van"
    example "one size larger" fails on="24 V van" { change "80 A" to="81 A" }
    example "a little smaller" holds on="24 V van" { change "80 A" to="79.5 A" }
    example "just above" fails on="24 V van" { change "80 A" to="80.5 A" }
    example "no rating" open on="24 V van" missing="rating" { remove #" rating="80 A""# }
    example "a trailer" not-applicable on="24 V van" { change "class=van" to="class=trailer"; change "80 A" to="125 A" }
    example "American, at its limit" holds on="24 V van" basis=us { change "80 A" to="100 A" }
    example "American, above it" fails on="24 V van" basis=us { change "80 A" to="101 A" }
    example "American, just below" holds on="24 V van" basis=us { change "80 A" to="99.5 A" }
}
"##;

fn told(text: &str, faults: &[PackFault]) -> Vec<String> {
    faults.iter().map(|fault| fault.show(text)).collect()
}

#[test]
fn a_real_rule_is_proved_by_real_specifications() {
    let proof = run(&[(FILE, RULE)], false);
    assert_eq!(told(RULE, &proof.faults), [""; 0]);
    let rule = proof.rules.first();
    assert_eq!(rule.map(|rule| (rule.examples, rule.right, rule.sides())), Some((9, 9, (3, 3))));
    assert_eq!(proof.percent(), 100.0);
}

#[test]
fn a_wrong_figure_of_one_region_is_noticed_there() {
    let proof = run(&[(FILE, RULE)], true);
    assert_eq!(told(RULE, &proof.faults), [""; 0]);
    let coarse = RULE.replace("change \"80 A\" to=\"101 A\"", "change \"80 A\" to=\"150 A\"");
    let proof = run(&[(FILE, &coarse)], true);
    let survivors = told(&coarse, &proof.faults);
    assert!(survivors.iter().any(|told| told.contains("most is 101 A instead of 100 A")), "{survivors:?}");
}

#[test]
fn what_the_reader_finds_is_proved_by_the_reader() {
    let text = r##"rule "text/unclosed-block" warning found=reading {
    title "A block without an end"
    why "What stands in it is not checked."
    remedy "Write the closing brace."
    caution "What is not read is not checked."
    source "our own" mark=chosen
    example "no brace" fails { add #"build Test { stage draft"# }
    example "with brace" holds { add #"build Test { stage draft }"# }
}
"##;
    let proof = run(&[("rules/any/text.rules.kdl", text)], true);
    assert_eq!(told(text, &proof.faults), [""; 0]);
}
