//! A change of the private setup for the installer to accept or refuse, as a JSON Patch (RFC 6902). Before every change the patch tests the
//! present value, so that a setup that was edited since is left as it is.

use json_patch::{Patch, PatchOperation, TestOperation, diff, patch};
use model::config::Setup;
use serde_json::Value;

/// Why a setup was not changed.
#[derive(Debug, thiserror::Error)]
pub enum NotChanged {
    /// The setup is not the one that the proposal was made for.
    #[error("the proposal does not fit this setup: {0}")]
    DoesNotFit(#[from] json_patch::PatchError),
    /// The result would be no valid setup.
    #[error("{0}")]
    NoSetup(#[from] serde_json::Error),
}

/// The patch that leads from one setup to the other.
///
/// # Errors
/// If a setup can't be written as JSON, which does not happen.
pub fn proposal(from: &Setup, to: &Setup) -> Result<Patch, serde_json::Error> {
    let (from, to) = (serde_json::to_value(from)?, serde_json::to_value(to)?);
    Ok(tested(&from, diff(&from, &to)))
}

/// Puts a test of the present value before each change, and a test of the day the setup was last changed before all of them.
fn tested(from: &Value, plain: Patch) -> Patch {
    let test = |path: &json_patch::jsonptr::Pointer| {
        let value = path.resolve(from).ok()?.clone();
        Some(PatchOperation::Test(TestOperation { path: path.to_owned(), value }))
    };
    if plain.0.is_empty() {
        return plain;
    }
    let mut operations: Vec<PatchOperation> =
        test(json_patch::jsonptr::Pointer::from_static("/changed")).into_iter().collect();
    for operation in plain.0 {
        let old = match &operation {
            PatchOperation::Replace(replace) => test(&replace.path),
            PatchOperation::Remove(remove) => test(&remove.path),
            _ => None,
        };
        operations.extend(old);
        operations.push(operation);
    }
    Patch(operations)
}

/// The setup with a proposal accepted.
///
/// # Errors
/// [`NotChanged`] if the proposal does not fit; no part of it is applied then.
pub fn accept(setup: &Setup, proposal: &Patch) -> Result<Setup, NotChanged> {
    let mut written = serde_json::to_value(setup)?;
    patch(&mut written, proposal)?;
    Ok(serde_json::from_value(written)?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::config::{Item, demo_setup};
    use model::units::{Probability, Ratio};

    #[test]
    fn what_is_accepted_is_what_was_proposed() {
        let from = demo_setup();
        let mut to = from.clone();
        to.calibration.labour = Ratio::of(1.2);
        to.calibration.items.insert(Item::Glands, Ratio::of(0.9));
        to.priors.weak_signal = Probability::of(0.4);
        let made = proposal(&from, &to).unwrap();
        assert_eq!(accept(&from, &made).unwrap(), to);
        let written = serde_json::to_string(&made).unwrap();
        let tests = written.matches("\"op\":\"test\"").count();
        assert!(tests >= 3 && written.contains("\"op\":\"replace\""), "{written}");
        // The patch survives being written as text.
        let read: Patch = serde_json::from_str(&written).unwrap();
        assert_eq!(accept(&from, &read).unwrap(), to);
    }

    #[test]
    fn a_setup_that_moved_on_is_left_alone() {
        let from = demo_setup();
        let mut to = from.clone();
        to.calibration.labour = Ratio::of(1.2);
        let made = proposal(&from, &to).unwrap();
        let mut moved = from.clone();
        moved.calibration.labour = Ratio::of(1.1);
        assert!(matches!(accept(&moved, &made), Err(NotChanged::DoesNotFit(_))));
        let mut later = from.clone();
        later.changed = jiff::civil::date(2027, 1, 1);
        assert!(accept(&later, &made).is_err());
    }

    #[test]
    fn nothing_to_change_is_no_operation() {
        assert!(proposal(&demo_setup(), &demo_setup()).unwrap().0.is_empty());
    }
}
