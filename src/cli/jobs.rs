//! One build file or several, side by side; once or whenever they change.

use super::args::Own;
use super::change::{self, Snapshot};
use super::fault::Fault;
use super::said::Said;
use super::{Ended, say};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::mpsc;
use std::time::{Duration, SystemTime};

/// Looks at the clock of each file so often.
const EVERY: Duration = Duration::from_millis(200);

/// Runs `work` for each build file and says what it has to say, in the order of the files.
pub fn each(builds: &[PathBuf], work: impl Fn(&Path) -> Said + Sync) -> Result<(), Ended> {
    if let [one] = builds {
        return work(one).speak();
    }
    // Each input once: the second reader of standard input would find nothing.
    if builds.iter().filter(|path| path.as_path() == Path::new("-")).count() > 1 {
        return Err(Fault::Answer("-".into(), "standard input can be read once".into()).into());
    }
    let threads = std::thread::available_parallelism().map_or(1, usize::from).min(builds.len());
    let next = AtomicUsize::new(0);
    let (send, receive) = mpsc::channel();
    let mut worst: Result<(), Ended> = Ok(());
    std::thread::scope(|scope| {
        for _ in 0..threads {
            let (send, next, work) = (send.clone(), &next, &work);
            scope.spawn(move || {
                loop {
                    let index = next.fetch_add(1, Ordering::Relaxed);
                    let Some(path) = builds.get(index) else { break };
                    if send.send((index, work(path))).is_err() {
                        break;
                    }
                }
            });
        }
        drop(send);
        let mut waiting = BTreeMap::new();
        let mut told = 0;
        for (done, (index, said)) in receive.iter().enumerate() {
            waiting.insert(index, said);
            while let Some(said) = waiting.remove(&told) {
                say::progress_off();
                worst = worse(std::mem::replace(&mut worst, Ok(())), tell(said));
                told += 1;
            }
            say::progress(done + 1, builds.len());
        }
        say::progress_off();
    });
    worst
}

/// Says it; a fault of the world is told at once, so that the other files still have their turn.
fn tell(said: Said) -> Result<(), Ended> {
    match said.speak() {
        Err(Ended::Fault(fault)) => {
            say::fault(&fault);
            Err(Ended::Told(fault.code()))
        }
        other => other,
    }
}

/// The graver of two ends: a fault of the world before a stop, a stop before none.
fn worse(first: Result<(), Ended>, second: Result<(), Ended>) -> Result<(), Ended> {
    let code = |ended: &Result<(), Ended>| ended.as_ref().map_or_else(Ended::code, |()| 0);
    if code(&second) > code(&first) { second } else { first }
}

/// Runs `work` for each build file, and again for those that were saved, telling what changed;
/// until it is ended from outside.
pub fn watch(
    builds: &[PathBuf],
    own: &Own,
    work: impl Fn(&Path) -> Said + Sync,
) -> Result<(), Ended> {
    if builds.iter().any(|path| path.as_path() == Path::new("-")) {
        let why = "standard input can't be watched; name a file".to_owned();
        return Err(Fault::Answer("--watch".into(), why).into());
    }
    let mut before: BTreeMap<&Path, Snapshot> = BTreeMap::new();
    let mut files: BTreeMap<&Path, Vec<PathBuf>> = BTreeMap::new();
    let mut times: BTreeMap<&Path, Vec<Option<SystemTime>>> = BTreeMap::new();
    loop {
        for path in builds {
            let path = path.as_path();
            let watched = files.entry(path).or_insert_with(|| {
                let folders = [&own.tables.materials, &own.templates].into_iter().flatten();
                std::iter::once(path.to_owned()).chain(folders.cloned()).collect()
            });
            let now = changed_at(watched);
            if times.get(path) == Some(&now) {
                continue;
            }
            let again = times.insert(path, now).is_some();
            let mut said = work(path);
            watched.truncate(1);
            watched.append(&mut said.files);
            let now = changed_at(watched);
            times.insert(path, now);
            if let Some(new) = said.snapshot.take() {
                if let (true, Some(old)) = (again, before.get(path)) {
                    said.line(format_args!("{}: since the last run", path.display()));
                    for line in change::told(old, &new) {
                        said.line(line);
                    }
                }
                // The next run is held against the last that could be worked out.
                if new.is_whole() || !before.get(path).is_some_and(Snapshot::is_whole) {
                    before.insert(path, new);
                }
            }
            // Nothing ends the watch: the next save may mend it.
            let _ = tell(said);
            say::err(&format!("{}: waiting for the next save\n", path.display()));
        }
        std::thread::sleep(EVERY);
    }
}

/// When each was saved; nothing for one that is not there, as between the two halves of a save.
fn changed_at(files: &[PathBuf]) -> Vec<Option<SystemTime>> {
    files.iter().map(|path| std::fs::metadata(path).and_then(|meta| meta.modified()).ok()).collect()
}
