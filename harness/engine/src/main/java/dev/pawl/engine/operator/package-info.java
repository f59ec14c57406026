/**
 * The operators of the rule language as graph nodes, one small class each. Each keeps what it needs of the past, O(1)
 * or O(edges in its window), and wakes itself when its value changes between events.
 */
package dev.pawl.engine.operator;
