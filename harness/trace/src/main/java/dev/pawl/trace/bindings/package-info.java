/**
 * Bindings files: how a site's tags become the signals of the rules, without touching either. {@link
 * dev.pawl.trace.bindings.BindingsFile} is the plain text form, sections of entries of tokens, which other modules read
 * their own sections from; {@link dev.pawl.trace.bindings.Bindings} is what the sections {@code time}, {@code columns},
 * {@code signals} and {@code ignore} mean for a rule book.
 */
package dev.pawl.trace.bindings;
