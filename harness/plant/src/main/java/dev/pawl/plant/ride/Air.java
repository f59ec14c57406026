package dev.pawl.plant.ride;

import dev.pawl.plant.text.Word;

/**
 * The air that holds brakes open. All pressures are in pascals.
 *
 * @param starts pressure at the start
 * @param low below it the compressor starts
 * @param high above it the compressor stops
 * @param fills each second by the compressor
 * @param leaks each second while no brake takes any
 * @param needed without which no brake that air opens stays open
 */
public record Air(Word name, double starts, double low, double high, double fills, double leaks, double needed) {}
