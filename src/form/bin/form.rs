//! The WebAssembly program of the homeowner's form. The engine is a program of its own (`engine.rs`).

fn main() {
    form::widget::mount::mind_faults();
}
