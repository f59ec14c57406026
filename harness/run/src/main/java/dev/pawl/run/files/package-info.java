/** From paths to what a session needs: rules, bindings, logic, traces; all that is wrong with one is told at once. */
package dev.pawl.run.files;
