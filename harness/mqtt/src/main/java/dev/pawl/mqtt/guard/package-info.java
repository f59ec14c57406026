/**
 * The bench guard: sensor events go only where a person has put up a sign that this broker serves a bench, and only
 * while the sign stands.
 */
package dev.pawl.mqtt.guard;
