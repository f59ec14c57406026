/** What is drawn: elements, their pins, and what is connected to what. Nothing is looked up yet. */
package dev.pawl.grammar.logic.drawn.tree;
