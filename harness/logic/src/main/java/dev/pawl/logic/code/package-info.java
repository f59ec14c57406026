/**
 * Checked program to JVM bytecode: one class per unit, static methods over the words of
 * {@link dev.pawl.logic.runtime.LogicMemory}, no objects while it runs. {@link ProgramCompiler} is the way in; ASM
 * stays in this package. Bytecode rather than closures, because a scan is some hundred tiny operations whose dispatch
 * would cost more than the operations.
 */
package dev.pawl.logic.code;
