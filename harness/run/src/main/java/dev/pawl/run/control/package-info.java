/** The controllers there are: logic in Structured Text, run in virtual time, and a bench behind a broker. */
package dev.pawl.run.control;
