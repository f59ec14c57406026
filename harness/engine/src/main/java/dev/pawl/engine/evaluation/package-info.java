/**
 * The evaluation of some rules and zones of a book together, and what every event has to pass before it gets there.
 * Rules do not depend on each other, so it does not matter which are evaluated together; zones that one rule rests on
 * have to be.
 */
package dev.pawl.engine.evaluation;
