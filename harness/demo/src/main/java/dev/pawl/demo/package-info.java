/**
 * The demo ride Kestrel Ridge in motion: trains moved by the plant, a block controller, an operator, and the scenarios
 * whose recordings `pawl demo` and the fixtures' tests check; and its programs with a mistake each, as changes of the
 * right one. All of it is invented. Deterministic: the same call writes the same bytes.
 */
package dev.pawl.demo;
