//! Readings that agree with another group's beyond chance, and repeats
//! without any spread: questions for the teacher alone.
