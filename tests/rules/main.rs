//! The allowable-stress rules against what others have published: worked examples to the printed
//! digit, span tables to the inch, fastener tables to the pound.

mod clear_wood;
mod coefficients;
mod eccentric;
mod fastener_tables;
mod properties;
mod span_tables;
mod support;
mod worked_examples;
