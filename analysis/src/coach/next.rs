//! One thing to do next, on the feedback slip.
