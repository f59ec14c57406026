package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.check.ProgramTable.DeclaredUnit;
import dev.pawl.grammar.logic.model.BlockType;
import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.grammar.logic.model.Image;
import dev.pawl.grammar.logic.model.LogicType;
import dev.pawl.grammar.logic.model.StandardBlock;
import dev.pawl.grammar.logic.model.Variable;
import dev.pawl.grammar.logic.tree.Declaration;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.logic.tree.TypeSpecification;
import dev.pawl.grammar.logic.tree.VariableBlock;
import dev.pawl.grammar.logic.tree.VariableBlock.Section;
import dev.pawl.grammar.source.Diagnostics;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The declaring of variables: type, first value, place in memory. */
final class VariableDeclarations {

  private static final Pattern ADDRESS = Pattern.compile("%([IQM])([XBWDL]?)([0-9]+(?:\\.[0-9]+)*)");

  private final Diagnostics diagnostics;
  private final Checking checking;
  private final MemoryLayout memory;
  private final Scope globals;

  VariableDeclarations(Diagnostics diagnostics, Checking checking, MemoryLayout memory, Scope globals) {
    this.diagnostics = diagnostics;
    this.checking = checking;
    this.memory = memory;
    this.globals = globals;
  }

  void globals(VariableBlock block) {
    if (block.section() != Section.VAR_GLOBAL) {
      diagnostics.error(block.position(), block.section() + " belongs inside a PROGRAM, FUNCTION or FUNCTION_BLOCK",
          "only VAR_GLOBAL stands outside");
      return;
    }
    declare(Optional.empty(), block, Variable.Role.GLOBAL);
  }

  void section(DeclaredUnit unit, VariableBlock block) {
    Declaration.Kind kind = unit.syntax().kind();
    switch (block.section()) {
      case VAR -> declare(Optional.of(unit), block, Variable.Role.LOCAL);
      case VAR_INPUT -> declare(Optional.of(unit), block, Variable.Role.INPUT);
      case VAR_OUTPUT -> declare(Optional.of(unit), block, Variable.Role.OUTPUT);
      case VAR_TEMP -> declare(Optional.of(unit), block, Variable.Role.TEMPORARY);
      case VAR_EXTERNAL -> external(unit, block);
      case VAR_GLOBAL -> diagnostics.error(block.position(), "VAR_GLOBAL belongs outside of any "
          + kind, "move it to the top of the file");
      case VAR_IN_OUT -> {
        if (kind == Declaration.Kind.PROGRAM) {
          diagnostics.error(block.position(), "a PROGRAM has no VAR_IN_OUT: nothing calls it",
              "use VAR_INPUT and VAR_OUTPUT");
        } else {
          declare(Optional.of(unit), block, Variable.Role.IN_OUT);
        }
      }
    }
  }

  /** The variable that holds a function's result. */
  void result(DeclaredUnit unit, TypeSpecification specification) {
    NamedType type = checking.types().resolve(specification, "");
    if (type.type() instanceof BlockType) {
      diagnostics.error(specification.position(), "a function returns a value, not an instance of "
          + type.type().name(), "return its outputs");
      return;
    }
    add(Optional.of(unit), unit.syntax().name(), type, Variable.Role.RESULT, null, "");
  }

  private void external(DeclaredUnit unit, VariableBlock block) {
    for (VariableBlock.Variables variables : block.declarations()) {
      NamedType type = checking.types().resolve(variables.specification(), "");
      for (Name name : variables.names()) {
        Optional<Variable> global = unit.scope().outside(name.key());
        if (global.isEmpty()) {
          diagnostics.cause(name.position(), "there is no global variable " + name,
              unit.scope().suggestion(name.text()), "global variable", name.text());
          unit.scope().alias(name.key(), new Variable(name.text(), new LogicType.Unknown(), Variable.Role.GLOBAL, 0,
              false, false, "", Image.word(0), name.position()));
        } else if (!(type.type() instanceof LogicType.Unknown) && !global.get().type().equals(type.type())) {
          diagnostics.error(name.position(), name + " is " + global.get().type().name() + " where it is declared, not "
              + type.type().name());
        } else {
          unit.scope().alias(name.key(), global.get());
        }
      }
    }
  }

  private void declare(Optional<DeclaredUnit> unit, VariableBlock block, Variable.Role role) {
    for (VariableBlock.Variables variables : block.declarations()) {
      boolean open = unit.isPresent() && unit.get().opens(block, variables);
      NamedType declared = open ? NamedType.unknown() : checking.types().resolve(variables.specification(), "");
      NamedType type = variables.initial()
          .map(written -> new NamedType(declared.type(), checking.initializers().image(declared, written)))
              .orElse(declared);
      if (role == Variable.Role.IN_OUT && variables.initial().isPresent()) {
        diagnostics.error(variables.initial().get().position(),
            "a VAR_IN_OUT has no first value: it stands for the caller's variable", "leave the first value out");
      }
      boolean held = type.type() instanceof BlockType
          && unit.filter(owner -> owner.syntax().kind() == Declaration.Kind.FUNCTION).isPresent();
      if (held && role != Variable.Role.IN_OUT) {
        diagnostics.error(variables.names().get(0).position(), "a FUNCTION cannot hold an instance of " + type.type()
            .name() + ": it keeps nothing from call to call", "make it a FUNCTION_BLOCK");
      }
      String address = variables.address().map(written -> address(unit, written, type.type())).orElse("");
      for (Name name : variables.names()) {
        add(unit, name, type, role, block, address);
        variables.edge().ifPresent(edge -> edge(unit, name, type.type(), role, edge));
      }
      if (!address.isEmpty() && variables.names().size() > 1) {
        diagnostics.error(variables.names().get(1).position(), "only one variable can be located at " + address);
      }
    }
  }

  /** The hidden block that finds the edges of an input. */
  private void edge(Optional<DeclaredUnit> unit, Name name, LogicType type, Variable.Role role,
      VariableBlock.Edge edge) {
    boolean keeps = unit.filter(owner -> owner.syntax().kind() != Declaration.Kind.FUNCTION).isPresent();
    if (!keeps || role != Variable.Role.INPUT || type != Elementary.BOOL) {
      diagnostics.error(name.position(), edge + " belongs to a BOOL in VAR_INPUT of a FUNCTION_BLOCK or PROGRAM");
      return;
    }
    StandardBlock block = edge == VariableBlock.Edge.R_EDGE ? StandardBlock.R_TRIG : StandardBlock.F_TRIG;
    Name hidden = new Name(name + " " + edge, name.position());
    add(unit, hidden, NamedType.of(block.type()), Variable.Role.LOCAL, null, "");
    unit.get().scope().edge(name.key(), hidden.key());
  }

  private void add(Optional<DeclaredUnit> unit, Name name, NamedType type, Variable.Role role, VariableBlock block,
      String address) {
    boolean instance = unit.flatMap(DeclaredUnit::block).isPresent();
    Image initial = role == Variable.Role.IN_OUT ? Image.word(0) : type.initial();
    if (!memory.hasRoom(initial.size()) || instance && unit.get().block().get().size()
        + (long) initial.size() > TypeTable.LARGEST) {
      diagnostics.error(name.position(), "the variables need more memory than the " + MemoryLayout.LARGEST
          + " elementary values there is room for");
      return;
    }
    Optional<Variable> twin = address.isEmpty() || address.endsWith("*") ? Optional.empty() : globals.own(address)
        .filter(other -> other.type().stored().equals(type.type().stored()));
    int offset = instance ? unit.get().block().get().size()
        : twin.map(Variable::offset).orElseGet(() -> memory.allocate(initial));
    boolean constant = block != null && block.constant();
    boolean retain = block != null && block.retain() || unit.filter(DeclaredUnit::retains).isPresent();
    Variable variable = new Variable(name.text(), type.type(), role, offset, constant, retain, address, initial,
        name.position());
    Scope scope = unit.map(DeclaredUnit::scope).orElse(globals);
    if (!scope.add(variable)) {
      diagnostics.error(name.position(), name + " is already declared in this "
          + unit.map(owner -> owner.syntax().kind().name())
          .orElse("list of global variables"), "give one of the two another name");
      scope.doubt(variable);
      return;
    }
    if (!address.isEmpty() && !address.endsWith("*")) {
      locate(variable, name);
    }
    unit.ifPresent(owner -> owner.variables().add(variable));
    if (instance) {
      unit.get().block().get().add(variable);
    } else {
      retain(variable, offset);
    }
  }

  private void locate(Variable variable, Name name) {
    Optional<Variable> other = globals.own(variable.address());
    if (other.isPresent() && other.get() != variable && other.get().offset() == variable.offset()) {
      checking.units().overlaps().locate(variable);
      return;
    }
    if (other.isPresent() && other.get() != variable) {
      diagnostics.error(name.position(), variable.address() + " already belongs to " + other.get().name(),
          "give one of the two another address");
    } else {
      globals.alias(variable.address(), variable);
      checking.units().overlaps().locate(variable);
    }
  }

  /**
   * Marks what survives a warm restart: the variable itself, or the retained variables inside a function block
   * instance.
   */
  private void retain(Variable variable, int address) {
    if (variable.retain()) {
      memory.retain(address, variable.initial().size());
    } else {
      retainWithin(variable.type(), address);
    }
  }

  private void retainWithin(LogicType type, int address) {
    if (type instanceof BlockType block) {
      for (Variable inner : block.variables()) {
        if (inner.role() != Variable.Role.IN_OUT) {
          retain(inner, address + inner.offset());
        }
      }
    } else if (type instanceof LogicType.ArrayType array && array.element() instanceof BlockType) {
      for (int i = 0; i < array.elements(); i++) {
        retainWithin(array.element(), address + i * array.element().size());
      }
    }
  }

  /** Declares what is named by its address only: BOOL at a bit, else the bit string of that width. */
  void unnamed(Name address) {
    Matcher parts = ADDRESS.matcher(address.key());
    if (!parts.matches()) {
      diagnostics.cause(address.position(), address + " is no address",
          "addresses are written like %IX0.1, %QW4 or %MD12", "address", address.text());
      return;
    }
    Elementary type = switch (parts.group(2)) {
      case "", "X" -> Elementary.BOOL;
      case "B" -> Elementary.BYTE;
      case "W" -> Elementary.WORD;
      case "D" -> Elementary.DWORD;
      default -> Elementary.LWORD;
    };
    String located = "%" + parts.group(1) + (parts.group(2).isEmpty() ? "X" : parts.group(2)) + parts.group(3);
    if (globals.own(located).isEmpty()) {
      add(Optional.empty(), new Name(located, address.position()), NamedType.of(type), Variable.Role.GLOBAL, null,
          located);
    }
    globals.own(located).ifPresent(variable -> globals.alias(address.key(), variable));
  }

  /** A located address, checked, with its size letter; the empty string after a report. */
  private String address(Optional<DeclaredUnit> unit, Name written, LogicType type) {
    if (unit.filter(owner -> owner.syntax().kind() != Declaration.Kind.PROGRAM).isPresent()) {
      diagnostics.error(written.position(),
          "only global variables and those of a PROGRAM can be located at an address");
      return "";
    }
    String key = written.key();
    if (key.matches("%[IQM]\\*")) {
      return key;
    }
    if (type instanceof LogicType.Unknown) {
      return "";
    }
    Matcher parts = ADDRESS.matcher(key);
    Optional<Elementary> stored = type.stored();
    if (!parts.matches() || stored.isEmpty()) {
      diagnostics.error(written.position(), stored.isEmpty() ? "a variable of type " + type.name()
          + " cannot be located"
          : written + " is no address", "addresses are written like %IX0.1, %QW4 or %MD12");
      return "";
    }
    String size = parts.group(2).isEmpty() ? "X" : parts.group(2);
    int bits = switch (size) {
      case "X" -> 1;
      case "B" -> 8;
      case "W" -> 16;
      case "D" -> 32;
      default -> 64;
    };
    if (bits != stored.get().bits()) {
      diagnostics.error(written.position(), written + " is " + bits + (bits == 1 ? " bit" : " bits") + " wide, but "
          + type.name() + " has " + stored.get().bits());
    }
    return "%" + parts.group(1) + size + parts.group(3);
  }
}
