//! The server as editors use it: every test speaks the protocol over a pipe in memory. One program, since each would take the
//! server along.

mod completion;
mod findings;
mod formatting;
mod hierarchy;
mod hover;
mod inlay;
mod lens;
mod links;
mod mends;
mod names;
mod odd_clients;
mod outline;
mod pull;
mod random_edits;
mod robust;
mod rule_files;
mod selection;
mod support;
mod symbols;
mod tokens;
mod watched;
