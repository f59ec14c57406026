package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.grammar.logic.model.Image;
import dev.pawl.grammar.logic.model.LogicType;
import dev.pawl.grammar.logic.model.StandardBlock;
import dev.pawl.grammar.logic.tree.Declaration.TypeDeclaration;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.logic.tree.TypeSpecification;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.NearName;
import dev.pawl.grammar.source.Position;
import java.math.BigInteger;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;

/**
 * The types of a program: declared ones are worked out when they are first needed, so that their order does not matter.
 */
final class TypeTable {

  /** Slots of the largest variable. */
  static final long LARGEST = 1 << 22;

  /** The elementary values of all arrays and structures so far. */
  private long taken;

  private final Diagnostics diagnostics;
  private final Checking checking;
  private final Map<String, TypeDeclaration> declarations = new HashMap<>();
  private final Map<String, NamedType> known = new LinkedHashMap<>();
  private final Set<String> underWay = new HashSet<>();
  private final Map<String, List<LogicType.EnumerationType>> members = new HashMap<>();

  TypeTable(Diagnostics diagnostics, Checking checking) {
    this.diagnostics = diagnostics;
    this.checking = checking;
  }

  void declare(TypeDeclaration declaration) {
    Name name = declaration.name();
    boolean taken = !Elementary.free(name.text()) || StandardBlock.named(name.text()).isPresent()
        || name.key().equals("STRING") || name.key().equals("WSTRING");
    if (taken || declarations.putIfAbsent(name.key(), declaration) != null) {
      diagnostics.error(name.position(), "the type " + name + " is already "
          + (taken ? "part of the language" : "declared"), "give it another name");
    }
  }

  boolean isDeclared(String key) {
    return declarations.containsKey(key);
  }

  /** Works out all declared types, so that all errors in them are reported. */
  void resolveAll() {
    declarations.values().stream().map(TypeDeclaration::name).sorted((a, b) -> a.position().line() - b.position()
        .line())
        .forEach(this::named);
  }

  /** Every name of an enumeration. */
  List<String> memberNames() {
    return members.values().stream().flatMap(List::stream).flatMap(type -> type.members().stream())
        .map(LogicType.Member::name)
        .toList();
  }

  /** The enumerations that have a member of that name. */
  List<LogicType.EnumerationType> withMember(String key) {
    return members.getOrDefault(key, List.of());
  }

  /** The type a name stands for; an unknown one, after a report, where it stands for none. */
  NamedType named(Name name) {
    return find(name).orElseGet(() -> {
      List<String> near = new ArrayList<>(declarations.values().stream().map(type -> type.name().text()).toList());
      near.addAll(checking.blockNames());
      List.of(Elementary.values()).forEach(type -> near.add(type.name()));
      List.of(StandardBlock.values()).forEach(type -> near.add(type.name()));
      near.add("STRING");
      diagnostics.cause(name.position(), "the type " + name + " is not declared",
          NearName.hint(name.text(), near).orElse("if another file declares it, give that too"), "type", name.text());
      return NamedType.unknown();
    });
  }

  /** The type a name stands for, or nothing. */
  Optional<NamedType> find(Name name) {
    boolean own = Elementary.free(name.text()) && (isDeclared(name.key()) || checking.block(name).isPresent());
    Optional<Elementary> elementary = own ? Optional.empty() : Elementary.named(name.text());
    if (elementary.isPresent()) {
      return elementary.map(NamedType::of);
    }
    if (name.key().equals("STRING") || name.key().equals("WSTRING")) {
      return Optional.of(NamedType.of(new LogicType.StringType(name.key().startsWith("W"),
          LogicType.StringType.DEFAULT_LENGTH)));
    }
    NamedType resolved = known.get(name.key());
    if (resolved != null) {
      return Optional.of(resolved);
    }
    TypeDeclaration declaration = declarations.get(name.key());
    if (declaration == null) {
      Optional<NamedType> block = checking.block(name).map(NamedType::of);
      return block.isPresent() ? block : StandardBlock.named(name.text())
          .map(standard -> NamedType.of(standard.type()));
    }
    if (!underWay.add(name.key())) {
      diagnostics.error(name.position(), "the type " + declaration.name() + " contains itself");
      return Optional.of(NamedType.unknown());
    }
    NamedType type = resolve(declaration.specification(), declaration.name().text());
    if (declaration.initial().isPresent()) {
      type = new NamedType(type.type(), checking.initializers().image(type, declaration.initial().get()));
    }
    underWay.remove(name.key());
    known.put(name.key(), type);
    return Optional.of(type);
  }

  /**
   * The type that a specification describes.
   *
   * @param name what messages call it; empty for a type written in place
   */
  NamedType resolve(TypeSpecification specification, String name) {
    return specification.accept(new TypeSpecification.Visitor<>() {
      @Override public NamedType visit(TypeSpecification.Named e) { return named(e.name()); }
      @Override public NamedType visit(TypeSpecification.SizedString e) { return sizedString(e); }
      @Override public NamedType visit(TypeSpecification.Subrange e) { return NamedType.of(subrange(e, name)); }
      @Override public NamedType visit(TypeSpecification.Enumeration e) { return NamedType.of(enumeration(e, name)); }
      @Override public NamedType visit(TypeSpecification.ArrayOf e) { return array(e); }
      @Override public NamedType visit(TypeSpecification.OpenArray e) {
        diagnostics.error(e.position(), "ARRAY[*] takes its bounds from a call, and nothing is passed here",
            "it belongs into VAR_IN_OUT, or into VAR_INPUT or VAR_OUTPUT of a FUNCTION; elsewhere write bounds,"
                + " such as ARRAY[0..9]");
        return NamedType.unknown();
      }
      @Override public NamedType visit(TypeSpecification.Structure e) {
        return NamedType.of(structure(e, name.isEmpty() ? "STRUCT" : name));
      }
      @Override public NamedType visit(TypeSpecification.Unreadable e) { return NamedType.unknown(); }
    });
  }

  private NamedType sizedString(TypeSpecification.SizedString string) {
    boolean wide = string.name().key().equals("WSTRING");
    if (!wide && !string.name().key().equals("STRING")) {
      diagnostics.error(string.position(), string.name() + " takes no length; only STRING and WSTRING do",
          "arrays are written ARRAY[1..10] OF " + string.name());
    }
    long length = constant(string.length(), "the length of a string").orElse(1);
    if (length < 1 || length > 65_535) {
      diagnostics.error(string.length().position(), "the length of a string goes from 1 to 65535, this is " + length);
      length = 1;
    }
    return NamedType.of(new LogicType.StringType(wide, (int) length));
  }

  private OptionalLong constant(Expression expression, String role) {
    return checking.constants().whole(expression, role);
  }

  private LogicType subrange(TypeSpecification.Subrange subrange, String name) {
    Optional<Elementary> base = Elementary.named(subrange.base().text()).filter(Elementary::isInteger);
    OptionalLong low = constant(subrange.low(), "the lower bound");
    OptionalLong high = constant(subrange.high(), "the upper bound");
    if (base.isEmpty()) {
      diagnostics.error(subrange.base().position(), "a subrange needs an integer type, " + subrange.base()
          + " is none");
      return Elementary.INT;
    }
    if (low.isEmpty() || high.isEmpty()) {
      return base.get();
    }
    boolean fits = BigInteger.valueOf(low.getAsLong()).compareTo(base.get().least()) >= 0
        && BigInteger.valueOf(high.getAsLong()).compareTo(base.get().greatest()) <= 0;
    if (!fits || low.getAsLong() > high.getAsLong()) {
      diagnostics.error(subrange.position(), low.getAsLong() + ".." + high.getAsLong() + " is no range of " + base.get()
          .name());
      return base.get();
    }
    String shown = name.isEmpty() ? base.get().name() + "(" + low.getAsLong() + ".." + high.getAsLong() + ")" : name;
    return new LogicType.SubrangeType(shown, base.get(), low.getAsLong(), high.getAsLong());
  }

  private LogicType enumeration(TypeSpecification.Enumeration specification, String name) {
    Elementary base = specification.base().flatMap(word -> Elementary.named(word.text()))
        .orElse(checking.choices().enumerations());
    if (specification.base().isPresent() && !base.isInteger() && !base.isBits()) {
      diagnostics.error(specification.position(), "an enumeration is stored as an integer or a bit string, "
          + base.name() + " is neither");
      base = Elementary.DINT;
    }
    List<LogicType.Member> list = new ArrayList<>();
    Set<String> names = new HashSet<>();
    long next = 0;
    for (TypeSpecification.Member member : specification.members()) {
      long value = member.value().isPresent() ? constant(member.value().get(), "the value of " + member.name())
          .orElse(next)
          : next;
      if (!names.add(member.name().key())) {
        diagnostics.error(member.name().position(), member.name() + " occurs twice in this enumeration");
      }
      list.add(new LogicType.Member(member.name().text(), value));
      next = value + 1;
    }
    String shown = name.isEmpty() ? "enumeration of line " + specification.position().line() : name;
    LogicType.EnumerationType type = new LogicType.EnumerationType(shown, base, list);
    names.forEach(key -> members.computeIfAbsent(key, unused -> new ArrayList<>()).add(type));
    return type;
  }

  private NamedType array(TypeSpecification.ArrayOf specification) {
    NamedType element = resolve(specification.element(), "");
    boolean known = true;
    List<LogicType.Bounds> bounds = new ArrayList<>();
    long size = Math.max(1, element.type().size());
    for (TypeSpecification.Bounds dimension : specification.bounds()) {
      OptionalLong least = constant(dimension.low(), "the lower bound");
      OptionalLong most = constant(dimension.high(), "the upper bound");
      known &= least.isPresent() && most.isPresent();
      long low = least.orElse(0);
      long high = most.orElse(low);
      if (high < low) {
        diagnostics.error(dimension.high().position(), "the upper bound " + high + " lies below the lower bound "
            + low);
        high = low;
      }
      long length = high - low < 0 || high - low > LARGEST ? LARGEST + 1 : high - low + 1;
      size = Math.min(LARGEST + 1, size * length);
      bounds.add(new LogicType.Bounds(low, high));
    }
    if (!known) {
      return NamedType.unknown();
    }
    if (size > LARGEST) {
      diagnostics.error(specification.position(), "the array is too large: a variable has room for " + LARGEST
          + " elementary values");
      return NamedType.unknown();
    }
    if (!takes(size, specification.position())) {
      return NamedType.unknown();
    }
    LogicType.ArrayType type = new LogicType.ArrayType(bounds, element.type());
    return new NamedType(type, element.initial().repeated(type.elements()));
  }

  private LogicType structure(TypeSpecification.Structure specification, String name) {
    List<LogicType.Field> fields = new ArrayList<>();
    Set<String> names = new HashSet<>();
    long offset = 0;
    for (TypeSpecification.Field field : specification.fields()) {
      NamedType type = resolve(field.specification(), "");
      Image initial = field.initial().map(written -> checking.initializers().image(type, written))
          .orElse(type.initial());
      if (!names.add(field.name().key())) {
        diagnostics.error(field.name().position(), "the structure has two fields " + field.name());
        continue;
      }
      fields.add(new LogicType.Field(field.name().text(), type.type(), (int) offset, initial));
      offset += type.type().size();
      if (offset > LARGEST) {
        diagnostics.error(field.name().position(), "the structure is too large: a variable has room for " + LARGEST
            + " elementary values");
        return new LogicType.Unknown();
      }
    }
    return takes(offset, specification.position()) ? new LogicType.StructureType(name, fields)
        : new LogicType.Unknown();
  }

  /** Whether the first values of one more type are within what all types together may have; where not, told once. */
  private boolean takes(long size, Position position) {
    boolean fitted = taken <= MemoryLayout.LARGEST;
    taken += size;
    if (fitted && taken > MemoryLayout.LARGEST) {
      diagnostics.error(position, "with this one, the arrays and structures have more than " + MemoryLayout.LARGEST
          + " elementary values in all", "declare smaller ones");
    }
    return taken <= MemoryLayout.LARGEST;
  }
}
