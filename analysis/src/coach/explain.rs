//! What a group is told before its sheet is marked: which step to look at again, and what that step is about. Never the answer.
