//! Outputs of which nothing is left half-written.
//!
//! Results go to a temporary file in the target's own folder, which is
//! renamed when all has gone well. What cannot be renamed (standard output, a
//! pipe, a device) gets them copied at the end.

use std::fs::{self, File};
use std::io::{self, Seek as _, Write};
use std::path::{Path, PathBuf};

use tempfile::NamedTempFile;

/// A result that is being written.
#[derive(Debug)]
pub struct Output {
    file: NamedTempFile,
    to: Destination,
}

#[derive(Debug)]
enum Destination {
    StandardOutput,
    /// Renamed over.
    File(PathBuf),
    /// Copied into.
    Device(PathBuf),
}

impl Output {
    /// Starts a result that will stand at `path`, or on standard output for
    /// `-`.
    ///
    /// # Errors
    /// When no temporary file can be made in the folder.
    pub fn to(path: &Path) -> io::Result<Self> {
        if path == Path::new("-") {
            let file = NamedTempFile::new()?;
            let to = Destination::StandardOutput;
            return Ok(Self { file, to });
        }
        match fs::metadata(path) {
            Ok(there) if !there.is_file() && !there.is_dir() => Ok(Self {
                file: NamedTempFile::new()?,
                to: Destination::Device(path.to_owned()),
            }),
            Ok(there) if there.is_file() => Self::beside(fs::canonicalize(path)?),
            _ => Self::beside(path.to_owned()),
        }
    }

    /// Where the target is a link, `path` is the file that it leads to.
    fn beside(path: PathBuf) -> io::Result<Self> {
        let folder = match path.parent() {
            Some(folder) if folder != Path::new("") => folder,
            _ => Path::new("."),
        };
        if path.is_dir() {
            return Err(io::Error::from(io::ErrorKind::IsADirectory));
        }
        let mut builder = tempfile::Builder::new();
        builder.prefix(".crestcount-");
        // As readable as any new file, not for its owner alone.
        #[cfg(unix)]
        {
            use std::os::unix::fs::PermissionsExt as _;
            builder.permissions(fs::Permissions::from_mode(0o666));
        }
        let file = builder.tempfile_in(folder)?;
        let to = Destination::File(path);
        Ok(Self { file, to })
    }

    /// The file to write to.
    pub fn file(&mut self) -> &mut File {
        self.file.as_file_mut()
    }

    /// Brings what was written to the disk. After this, only [`Self::keep`]
    /// is left to go wrong.
    ///
    /// # Errors
    /// When the disk does not take it.
    pub fn sync(&mut self) -> io::Result<()> {
        match self.to {
            Destination::File(_) => self.file.as_file().sync_all(),
            Destination::StandardOutput | Destination::Device(_) => Ok(()),
        }
    }

    /// Puts the result in its place.
    ///
    /// # Errors
    /// When it cannot be put there; the temporary file is then removed.
    pub fn keep(mut self) -> io::Result<()> {
        match self.to {
            Destination::File(path) => {
                self.file.persist(path)?;
                Ok(())
            }
            Destination::StandardOutput => copy(self.file.as_file_mut(), &mut io::stdout().lock()),
            Destination::Device(path) => {
                let mut device = File::options().write(true).open(path)?;
                copy(self.file.as_file_mut(), &mut device)
            }
        }
    }
}

fn copy(from: &mut File, to: &mut impl Write) -> io::Result<()> {
    from.rewind()?;
    io::copy(from, to)?;
    to.flush()
}
