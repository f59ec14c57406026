/**
 * Rides in motion. {@code ride} reads what a ride is like and {@code scenario} what happens on it, both in the form of
 * {@code text}; {@code motion} moves trains by physics, and {@code loop} puts all of it around a controller. No clock,
 * no
 * file, no ride of its own.
 */
package dev.pawl.plant;
