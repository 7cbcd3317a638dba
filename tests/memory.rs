//! Memory of the front end: under forty times the text, counted by the allocator itself.
//!
//! A test binary of its own, because the allocator is counted for the whole process.

mod common;

use std::alloc::{GlobalAlloc, Layout, System};
use std::sync::atomic::{AtomicUsize, Ordering};

struct Counting;

static NOW: AtomicUsize = AtomicUsize::new(0);
static PEAK: AtomicUsize = AtomicUsize::new(0);

// SAFETY: every call goes to the system allocator unchanged; only sizes are counted beside it.
unsafe impl GlobalAlloc for Counting {
    unsafe fn alloc(&self, layout: Layout) -> *mut u8 {
        let now = NOW.fetch_add(layout.size(), Ordering::Relaxed) + layout.size();
        PEAK.fetch_max(now, Ordering::Relaxed);
        // SAFETY: the caller keeps the contract of `alloc`.
        unsafe { System.alloc(layout) }
    }

    unsafe fn dealloc(&self, pointer: *mut u8, layout: Layout) {
        NOW.fetch_sub(layout.size(), Ordering::Relaxed);
        // SAFETY: the pointer came from `System` with this layout.
        unsafe { System.dealloc(pointer, layout) }
    }
}

#[global_allocator]
static ALLOCATOR: Counting = Counting;

#[test]
fn text_to_typed_cook_takes_less_than_forty_times_the_text() {
    // The tables are read once and are not part of any cook.
    let _ = common::cook("cook \"Warm up\"\nkit oven is oven\nfood a is potato\n  1 kg\n");
    let mut text = String::from(
        "cook \"Long\"\n  rules us-food-code\nkit oven is oven\nkit bench is bench\nkit probe is probe thermometer\nfood joint is pork shoulder\n  3 kg\n  thickness 11 cm\n",
    );
    for nth in 0..5_000 {
        text.push_str(&format!(
            "\nphase season-{nth} is prep\n  joint on bench\n  takes 10 min to 20 min, hands-on\n  do \"Salt every face first.\"\n\nphase roast-{nth} is cook\n  joint in oven\n  air 110 °C (230 °F)\n  until core 84 °C, takes 2 h to 4 h\n  expect core 55 °C to 88 °C\n"
        ));
    }
    text.push_str("\nserve joint\n  at 18:30\n");
    let before = NOW.load(Ordering::Relaxed);
    PEAK.store(before, Ordering::Relaxed);
    let (sources, cook, findings) = common::cook(&text);
    let peak = PEAK.load(Ordering::Relaxed) - before;
    assert!(cook.is_some() && findings.is_empty());
    assert_eq!(sources.len(), 1);
    let times = peak as f64 / text.len() as f64;
    println!("{} bytes of text, {peak} at the peak: {times:.1} times", text.len());
    assert!(times < 40.0, "{times:.1} times the text");
}
