//! One program to one data file.

use std::fs::{File, OpenOptions, TryLockError};
use std::path::Path;

use super::Error;

/// Held for as long as the program uses the data file. Migrations take no lock
/// of their own on `SQLite`, so two programs that start together would race.
#[derive(Debug)]
pub struct Lock {
    _file: File,
}

impl Lock {
    /// Locks the file that stands beside the data file, with `.lock-file`
    /// after its name. The lock goes with the process, however it ends.
    ///
    /// # Errors
    /// [`Error::InUse`] when another program holds it.
    pub fn take(data: &Path) -> Result<Self, Error> {
        let mut name = data.as_os_str().to_owned();
        name.push(".lock-file");
        let file = OpenOptions::new()
            .create(true)
            .truncate(false)
            .write(true)
            .open(name)
            .map_err(Error::Lock)?;
        match file.try_lock() {
            Ok(()) => Ok(Self { _file: file }),
            Err(TryLockError::WouldBlock) => Err(Error::InUse),
            Err(TryLockError::Error(cause)) => Err(Error::Lock(cause)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn second_program_is_refused() {
        let folder = tempfile::tempdir().unwrap();
        let data = folder.path().join("data.db");
        let held = Lock::take(&data).unwrap();
        assert!(
            matches!(Lock::take(&data), Err(Error::InUse)),
            "the lock is held"
        );
        drop(held);
        assert!(Lock::take(&data).is_ok(), "the lock was given back");
    }
}
