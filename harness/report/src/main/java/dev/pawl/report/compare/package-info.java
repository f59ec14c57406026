/** Two reports side by side: what changed for every rule and margin. Uses the engine's result records and words. */
package dev.pawl.report.compare;
