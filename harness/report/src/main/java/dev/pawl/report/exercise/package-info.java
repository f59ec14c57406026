/**
 * Which rules have been put to the test, and what would still try the others, as a list to tick off. Uses the engine's
 * outcomes and the explanations of rules.
 */
package dev.pawl.report.exercise;
