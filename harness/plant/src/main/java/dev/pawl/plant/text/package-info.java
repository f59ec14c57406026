/** The form that ride files and scenarios share: lines of words with clauses in any order, and what is wrong there. */
package dev.pawl.plant.text;
