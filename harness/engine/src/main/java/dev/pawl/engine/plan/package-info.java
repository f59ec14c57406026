/** Turns a rule book into a graph: one node per expression, one judge per rule, equal expressions computed once. */
package dev.pawl.engine.plan;
