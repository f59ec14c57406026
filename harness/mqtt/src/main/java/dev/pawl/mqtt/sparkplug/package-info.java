/**
 * Sparkplug 3 (ISO/IEC 20237) on the receiving side, and the commands of a host: births and deaths, aliases, sequence
 * numbers, historical and stale values. Uses the protocol's own message definition from Eclipse Tahu.
 */
package dev.pawl.mqtt.sparkplug;
