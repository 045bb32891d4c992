//! A program without a standard library, linked with the pure crates to show that none of them brings one in.

#![no_std]
extern crate engine as _;
extern crate record as _;

use core::alloc::{GlobalAlloc, Layout};

struct Nothing;

// Sound: it never hands out memory, and this program is only linked, never run.
unsafe impl GlobalAlloc for Nothing {
    unsafe fn alloc(&self, _: Layout) -> *mut u8 {
        core::ptr::null_mut()
    }
    unsafe fn dealloc(&self, _: *mut u8, _: Layout) {}
}

#[global_allocator]
static NOTHING: Nothing = Nothing;

#[panic_handler]
fn panic(_: &core::panic::PanicInfo) -> ! {
    loop {}
}
