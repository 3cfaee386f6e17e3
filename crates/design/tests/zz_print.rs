mod support;
use support::{ask, clean, number, part};
#[test]
fn print_equalities() {
    let b = clean(
        "build Test { stage review; basis eu; }\nvehicle class=van\nbattery house chemistry=LFP voltage=\"12.8 V\" capacity=\"200 Ah\" internal-resistance=\"4 mohm\"\nappliance fridge current=\"8 A\" continuous=no\ncircuit feed from=house to=fridge { fuse rating=\"10 A\" class=blade resistance=\"20 mohm\"; wire size=\"4 mm2\" one-way=\"48 m\" insulation=\"105 degC\"; }",
    );
    let d = part(&b, "device", "feed/fuse:1");
    let (i, o) = (number(&b, d, "smallest-fault-current"), number(&b, d, "opening-current"));
    println!("I {i:?} O {o:?} rating {:?} T {:?}", i / (o / 10.0), number(&b, d, "opening-time"));
    let mut r = i / (o / 10.0);
    for _ in 0..40 {
        r = f64::from_bits(r.to_bits() - 1);
    }
    let m = (o / 10.0, (2.0f64 / 1.35).ln());
    for _ in 0..80 {
        r = f64::from_bits(r.to_bits() + 1);
        let t = format!(
            "build Test {{ stage review; basis eu; }}\nvehicle class=van\nbattery house chemistry=LFP voltage=\"12.8 V\" capacity=\"200 Ah\" internal-resistance=\"4 mohm\"\nappliance fridge current=\"8 A\" continuous=no\ncircuit feed from=house to=fridge {{ fuse rating=\"{r:?} A\" class=blade resistance=\"20 mohm\"; wire size=\"4 mm2\" one-way=\"48 m\" insulation=\"105 degC\"; }}"
        );
        let b = clean(&t);
        let d = part(&b, "device", "feed/fuse:1");
        if number(&b, d, "smallest-fault-current") == number(&b, d, "opening-current") {
            println!("EQUAL {r:?}");
            break;
        }
    }
    let _ = m;
    let b = clean(
        "build Test { stage review; basis eu; }\nvehicle class=van\nbattery house chemistry=LFP voltage=\"12.8 V\" capacity=\"100 Ah\" internal-resistance=\"5 mohm\"\nappliance press power=\"100 W\" minimum-voltage=\"11.5 V\" surge=\"9 A\"\ncircuit feed from=house to=press { fuse rating=\"15 A\" class=blade resistance=\"7 mohm\"; wire size=\"2.5 mm2\" one-way=\"5 m\" insulation=\"105 degC\"; }",
    );
    let r = part(&b, "run", "feed/run");
    println!(
        "V {:?} {:?} {:?} {:?}",
        ask(&b, r, "end-voltage"),
        ask(&b, r, "solved-current"),
        ask(&b, r, "power-brought"),
        ask(&b, r, "starting-voltage")
    );
}
