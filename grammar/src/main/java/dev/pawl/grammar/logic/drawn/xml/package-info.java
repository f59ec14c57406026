/** XML without anything that could fetch, expand or exhaust: elements with their places, or a located message. */
package dev.pawl.grammar.logic.drawn.xml;
