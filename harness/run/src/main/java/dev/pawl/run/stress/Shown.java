package dev.pawl.run.stress;

/** A run that showed what is sought, which is to be made small. */
public record Shown(Trial trial, Sought sought) {}
