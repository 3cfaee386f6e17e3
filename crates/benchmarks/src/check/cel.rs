//! The cel crate's interpreter, in three ways of giving it the facts. In each, the context is bound once.

use super::{Contender, Device};
use crate::Outcome;
use cel::common::traits::Indexer;
use cel::common::types::{CelDouble, CelString, Type};
use cel::common::value::{CowVal, StaticVal, Val};
use cel::context::VariableResolver;
use cel::objects::Key;
use cel::{Context, ExecutionError, Program, Value};
use std::any::Any;
use std::collections::HashMap;
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};

/// The facts as values of cel, with the device that is asked now.
#[derive(Debug)]
struct Facts {
    devices: Vec<(CelDouble, CelDouble)>,
    now: AtomicUsize,
}

impl Facts {
    /// They live as long as the program, so that a context can be bound to them once for all.
    fn lasting(devices: &[Device]) -> &'static Self {
        let devices = devices
            .iter()
            .map(|device| (CelDouble::from(device.rating), CelDouble::from(device.protected_ampacity)))
            .collect();
        Box::leak(Box::new(Self { devices, now: AtomicUsize::new(0) }))
    }

    #[inline]
    fn get(&self, name: &str) -> Option<&CelDouble> {
        let (rating, protected_ampacity) = self.devices.get(self.now.load(Ordering::Relaxed))?;
        match name {
            "rating" => Some(rating),
            "protected_ampacity" => Some(protected_ampacity),
            _ => None,
        }
    }

    /// The devices for which the program says no.
    fn failing(&self, program: &Program, context: &Context<'_, '_>) -> Outcome<Vec<usize>> {
        let mut failing = Vec::new();
        for number in 0..self.devices.len() {
            self.now.store(number, Ordering::Relaxed);
            match program.execute(context)? {
                Value::Bool(true) => {}
                Value::Bool(false) => failing.push(number),
                other => return Err(format!("a check brings {other:?}").into()),
            }
        }
        Ok(failing)
    }
}

impl VariableResolver for Facts {
    fn resolve<'b>(&'b self, variable: &str) -> Option<CowVal<'b, 'b>> {
        self.get(variable).map(|number| CowVal::Borrowed(number))
    }
}

/// Facts as variables, looked up when they are read.
pub struct Resolved {
    program: Program,
    context: Context<'static, 'static>,
    facts: &'static Facts,
}

impl Resolved {
    pub fn new(devices: &[Device]) -> Outcome<Self> {
        let facts = Facts::lasting(devices);
        let mut context = Context::default();
        context.set_variable_resolver(facts);
        Ok(Self { program: Program::compile("rating <= protected_ampacity")?, context, facts })
    }
}

impl Contender for Resolved {
    fn name(&self) -> &'static str {
        "variables looked up when read"
    }

    fn failing(&mut self) -> Outcome<Vec<usize>> {
        self.facts.failing(&self.program, &self.context)
    }
}

static DEVICE: Type = Type::new_unspecified_type("device");

/// The device that is asked now, as a value of a type of our own.
#[derive(Clone, Debug)]
struct Now(&'static Facts);

impl Val for Now {
    fn get_type(&self) -> &Type {
        <Self as Val>::cel_type()
    }

    fn cel_type() -> &'static Type {
        &DEVICE
    }

    fn as_indexer<'b, 'v>(&'b self) -> Option<&'b (dyn Indexer + 'v)>
    where
        Self: 'v,
    {
        Some(self)
    }

    fn equals(&self, _: &dyn Val) -> bool {
        false
    }

    fn clone_as_boxed<'v>(&self) -> Box<dyn Val + 'v> {
        Box::new(self.clone())
    }

    fn as_any(&self) -> Option<&dyn Any> {
        Some(self)
    }
}

impl StaticVal for Now {}

impl Indexer for Now {
    fn get<'b, 'v>(&'b self, index: &dyn Val) -> Result<CowVal<'b, 'v>, ExecutionError>
    where
        Self: 'v,
    {
        let name = index.downcast_ref::<CelString<'_>>().ok_or_else(|| no_such("a name that is no text"))?;
        self.0.get(name.inner()).map(|number| CowVal::Borrowed(number)).ok_or_else(|| no_such(name.inner()))
    }

    fn steal<'v>(self: Box<Self>, index: &dyn Val) -> Result<Box<dyn Val + 'v>, ExecutionError>
    where
        Self: 'v,
    {
        self.get(index).map(CowVal::into_owned)
    }
}

fn no_such(name: &str) -> ExecutionError {
    ExecutionError::NoSuchKey(Arc::new(name.to_owned()))
}

/// A device of a type of our own, whose fields are looked up when they are read.
pub struct Custom {
    program: Program,
    context: Context<'static, 'static>,
    facts: &'static Facts,
}

impl Custom {
    pub fn new(devices: &[Device]) -> Outcome<Self> {
        let facts = Facts::lasting(devices);
        let mut context = Context::default();
        context.add_variable_as_val("device", Box::new(Now(facts)));
        Ok(Self { program: Program::compile("device.rating <= device.protected_ampacity")?, context, facts })
    }
}

impl Contender for Custom {
    fn name(&self) -> &'static str {
        "device of a custom type"
    }

    fn failing(&mut self) -> Outcome<Vec<usize>> {
        self.facts.failing(&self.program, &self.context)
    }
}

/// A list of all devices as maps, bound as one variable, and one expression over the list.
pub struct Mapped {
    program: Program,
    context: Context<'static, 'static>,
}

impl Mapped {
    pub fn new(devices: &[Device]) -> Outcome<Self> {
        let list: Vec<HashMap<&str, f64>> = devices
            .iter()
            .enumerate()
            .map(|(number, device)| {
                HashMap::from([
                    ("number", number as f64),
                    ("rating", device.rating),
                    ("protected_ampacity", device.protected_ampacity),
                ])
            })
            .collect();
        let mut context = Context::default();
        context.add_variable("devices", list)?;
        // `>` and not `!(… <= …)`, which would cost it one call more.
        let program = Program::compile("devices.filter(device, device.rating > device.protected_ampacity)")?;
        Ok(Self { program, context })
    }
}

impl Contender for Mapped {
    fn name(&self) -> &'static str {
        "one filter over a list of maps"
    }

    fn failing(&mut self) -> Outcome<Vec<usize>> {
        let Value::List(list) = self.program.execute(&self.context)? else {
            return Err("the filter brings no list".into());
        };
        let number_key = Key::from("number");
        list.iter()
            .map(|device| match device {
                Value::Map(map) => match map.get(&number_key) {
                    Some(Value::Float(number)) => Ok(*number as usize),
                    _ => Err("a device without its number".into()),
                },
                _ => Err("a device that is no map".into()),
            })
            .collect()
    }
}
