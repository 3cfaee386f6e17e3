//! The virtual machine of regorus, hot: compiled once, its input held ready, one rule over all devices.

use super::{Contender, Device};
use crate::Outcome;
use regorus::languages::rego::compiler::Compiler;
use regorus::rvm::vm::RegoVM;
use regorus::{Engine, Rc, Value};
use std::collections::BTreeMap;

const POLICY: &str = "package checks

failing contains number if {
    some number, device in input.devices
    device.rating > device.protected_ampacity
}
";
const ENTRY: &str = "data.checks.failing";

/// The machine with its program and its input.
pub struct Machine {
    machine: RegoVM,
    input: Value,
}

impl Machine {
    pub fn new(devices: &[Device]) -> Outcome<Self> {
        let mut engine = Engine::new();
        engine.add_policy("checks.rego".to_owned(), POLICY.to_owned())?;
        let policy = engine.compile_with_entrypoint(&Rc::from(ENTRY))?;
        let program = Compiler::compile_from_policy(&policy, &[ENTRY])?;
        let mut machine = RegoVM::new();
        // It stops after 25,000 instructions otherwise.
        machine.set_max_instructions(usize::MAX);
        machine.load_program(program);
        Ok(Self { machine, input: input(devices) })
    }
}

fn input(devices: &[Device]) -> Value {
    let object = |fields: Vec<(&str, Value)>| -> Value {
        Value::from(fields.into_iter().map(|(name, value)| (Value::from(name), value)).collect::<BTreeMap<_, _>>())
    };
    let list: Vec<Value> = devices
        .iter()
        .map(|device| {
            object(vec![("rating", device.rating.into()), ("protected_ampacity", device.protected_ampacity.into())])
        })
        .collect();
    object(vec![("devices", list.into())])
}

impl Contender for Machine {
    fn name(&self) -> &'static str {
        "hot virtual machine, one rule over all"
    }

    fn failing(&mut self) -> Outcome<Vec<usize>> {
        self.machine.set_input(self.input.clone());
        let result = self.machine.execute()?;
        let mut failing = Vec::new();
        for number in result.as_set()?.iter_sorted() {
            failing.push(usize::try_from(number.as_u64()?)?);
        }
        Ok(failing)
    }
}
