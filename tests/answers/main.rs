//! Answers before cutting: published span tables from the command line, closed forms turned round, and
//! agreement with the check on both sides of every answer.

mod closed_forms;
mod command_line;
mod properties;
mod size;
mod size_command;
mod slats;
mod span_tables;
mod support;
