/** What makes mutation testing affordable. Nothing here takes part in an ordinary test run. */
package dev.pawl.engine.mutation;
