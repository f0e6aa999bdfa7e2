//! Why an act is not done.

use crate::db::Error;

/// An act was not done, and nothing of it was kept.
#[derive(Debug)]
pub enum NotDone<R> {
    /// A rule of the act is against it.
    Refused(R),
    /// Something went wrong.
    Failed(Error),
}

impl<R> From<Error> for NotDone<R> {
    fn from(error: Error) -> Self {
        Self::Failed(error)
    }
}

/// Refuses where something is so.
pub(super) fn refuse_if<R>(is_so: bool, why: R) -> Result<(), NotDone<R>> {
    match is_so {
        true => Err(NotDone::Refused(why)),
        false => Ok(()),
    }
}

/// With what an act stops: an [`Error`], or [`NotDone`] where it has rules that
/// whoever asked is told of.
pub trait Stop: From<Error> + Send + 'static {
    /// What is told of an act that does `D`.
    type Told<D>;

    /// Takes errors apart from what is told.
    ///
    /// # Errors
    /// Those.
    fn told<D>(done: Result<D, Self>) -> Result<Self::Told<D>, Error>;
}

impl Stop for Error {
    type Told<D> = D;

    fn told<D>(done: Result<D, Self>) -> Result<D, Error> {
        done
    }
}

impl<R: Send + 'static> Stop for NotDone<R> {
    type Told<D> = Result<D, R>;

    fn told<D>(done: Result<D, Self>) -> Result<Result<D, R>, Error> {
        match done {
            Ok(done) => Ok(Ok(done)),
            Err(Self::Refused(why)) => Ok(Err(why)),
            Err(Self::Failed(error)) => Err(error),
        }
    }
}
