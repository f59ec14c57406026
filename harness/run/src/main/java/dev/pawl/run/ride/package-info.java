/**
 * A new ride: its layout as a person describes it, and the files that rules, bindings and examples begin with. Uses the
 * form of bindings files for the layout, and the rule language for what the library needs and for what is written.
 */
package dev.pawl.run.ride;
