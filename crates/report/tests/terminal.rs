//! A review as a terminal shows it.
mod fixture;

use fixture::{clean, review};
use report::{TerminalOptions, terminal};
use rules::Signal;

const BARE: TerminalOptions = TerminalOptions { colour: false, width: 100, unicode: true, links: false };

#[test]
fn show() {
    println!("{}", terminal(&review(), Signal::Warning, BARE));
    println!("{}", terminal(&review(), Signal::Warning, TerminalOptions{unicode:false,width:70,..BARE}));
    println!("{}", report::plain(&review(), Signal::Warning));
    println!("{}", terminal(&clean(), Signal::Warning, BARE));
}
