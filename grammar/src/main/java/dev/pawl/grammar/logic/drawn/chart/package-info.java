/** From sequential function charts to statements: steps, transitions and the control of actions. */
package dev.pawl.grammar.logic.drawn.chart;
