//! A question for the teacher to ask at the bench, for each slip.
