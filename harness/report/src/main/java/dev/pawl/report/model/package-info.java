/**
 * The one result model that every report format is written from: immutable records with values and times as the engine
 * knows them, and names and units as the rule files give them. Uses the engine's result records and nothing else.
 */
package dev.pawl.report.model;
