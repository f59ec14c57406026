/** From ladder and function block diagrams to statements: which network comes when, and which element in it. */
package dev.pawl.grammar.logic.drawn.network;
