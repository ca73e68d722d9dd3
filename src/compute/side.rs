//! Two things worked out side by side.

/// Does one thing on a thread beside the other; both here, one after the other, where no thread is to
/// be had. What comes out is the same either way.
pub fn both<A: Send, B>(beside: impl Fn() -> A + Sync, own: impl FnOnce() -> B) -> (A, B) {
    std::thread::scope(|scope| {
        let other = std::thread::Builder::new().spawn_scoped(scope, &beside);
        let own = own();
        let other = match other {
            Ok(other) => other.join().unwrap_or_else(|p| std::panic::resume_unwind(p)),
            Err(_) => beside(),
        };
        (other, own)
    })
}
