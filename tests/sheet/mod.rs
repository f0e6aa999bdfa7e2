//! A sheet as the teacher sees it, and the teacher's word on it.

mod annotate;
mod answers;
mod decide;
mod show;
mod suggested;
