/** From paths to what a session needs: rules, bindings, logic and traces, with everything wrong with them in one message. */
package dev.pawl.run.files;
