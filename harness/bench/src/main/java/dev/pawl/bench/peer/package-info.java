/**
 * What Pawl is measured against, as far as it needs no foreign library: each is a whole program that is started as a
 * process of its own and prints one line of counts.
 */
package dev.pawl.bench.peer;
