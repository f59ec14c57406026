/**
 * Fuzzing of the payload readers: each {@code @FuzzTest} runs over its committed inputs by default, guided by coverage
 * under the profile {@code fuzz}.
 */
package dev.pawl.mqtt.fuzz;
