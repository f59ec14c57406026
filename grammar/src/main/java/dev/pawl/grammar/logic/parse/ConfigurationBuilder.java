package dev.pawl.grammar.logic.parse;

import dev.pawl.grammar.logic.tree.Declaration;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.logic.tree.VariableBlock;
import dev.pawl.grammar.source.Diagnostic;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Function;

/** The builder of configurations. */
final class ConfigurationBuilder {

  private final String file;
  private final Consumer<Diagnostic> diagnostics;
  private final ExpressionBuilder expressions;
  private final Function<List<StructuredText.VariableBlockContext>, List<VariableBlock>> blocks;

  ConfigurationBuilder(String file, Consumer<Diagnostic> diagnostics, ExpressionBuilder expressions,
      Function<List<StructuredText.VariableBlockContext>, List<VariableBlock>> blocks) {
    this.file = file;
    this.diagnostics = diagnostics;
    this.expressions = expressions;
    this.blocks = blocks;
  }

  Declaration.Configuration configuration(StructuredText.ConfigurationContext context) {
    List<Declaration.Resource> resources = new ArrayList<>();
    for (StructuredText.ResourceContext resource : context.resource()) {
      resources.add(resource(Optional.of(expressions.name(resource.name(0))), blocks.apply(resource.variableBlock()),
          resource.resourceBody()));
    }
    if (context.resourceBody() != null) {
      resources.add(resource(Optional.empty(), List.of(), context.resourceBody()));
    }
    return new Declaration.Configuration(expressions.name(context.name()), blocks.apply(context.variableBlock()),
        resources);
  }

  private Declaration.Resource resource(Optional<Name> name, List<VariableBlock> globals,
      StructuredText.ResourceBodyContext body) {
    return new Declaration.Resource(name, globals, body.task().stream().map(this::task).toList(),
        body.programInstance().stream().map(this::instance).toList());
  }

  private Declaration.Task task(StructuredText.TaskContext context) {
    Map<String, Expression> properties = new HashMap<>();
    for (StructuredText.TaskPropertyContext property : context.taskProperty()) {
      Name name = expressions.name(property.name());
      if (!List.of("SINGLE", "INTERVAL", "PRIORITY").contains(name.key())) {
        diagnostics.accept(Diagnostic.error(name.position(), "a task has no " + name,
            "it has SINGLE, INTERVAL and PRIORITY"));
      } else if (properties.put(name.key(), expressions.visit(property.expression())) != null) {
        diagnostics.accept(Diagnostic.error(name.position(), name + " is given twice"));
      }
    }
    return new Declaration.Task(expressions.name(context.name()), Optional.ofNullable(properties.get("SINGLE")),
        Optional.ofNullable(properties.get("INTERVAL")), Optional.ofNullable(properties.get("PRIORITY")));
  }

  private Declaration.Instance instance(StructuredText.ProgramInstanceContext context) {
    List<Expression.Argument> connections = new ArrayList<>();
    for (StructuredText.ConnectionContext connection : context.connection()) {
      if (connection instanceof StructuredText.ProgramConnectionContext program) {
        connections.addAll(expressions.arguments(List.of(program.argument())));
      } else {
        diagnostics.accept(Diagnostic.error(Places.of(file, connection),
            "a function block with a task of its own is not supported",
            "call it in a program, and run that WITH the task"));
      }
    }
    boolean task = context.WITH() != null;
    return new Declaration.Instance(expressions.name(context.name(0)), context.RETAIN() != null,
        task ? Optional.of(expressions.name(context.name(1))) : Optional.empty(),
        expressions.name(context.name(task ? 2 : 1)), connections);
  }
}
