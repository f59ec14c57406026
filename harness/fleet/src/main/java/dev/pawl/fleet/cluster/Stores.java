package dev.pawl.fleet.cluster;

import dev.pawl.run.RunException;
import dev.pawl.run.files.FileTrouble;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.apache.flink.configuration.Configuration;
import org.apache.flink.configuration.CoreOptions;
import org.apache.flink.configuration.GlobalConfiguration;
import org.apache.flink.configuration.IllegalConfigurationException;
import org.apache.flink.core.fs.FileSystem;
import org.apache.flink.core.plugin.DefaultPluginManager;
import org.apache.flink.core.plugin.DirectoryBasedPluginFinder;

/**
 * Where traces with addresses are: file systems that Flink has as plugins, and the settings of a site, with its keys,
 * by which they find them.
 *
 * @param settings out of Flink's own file of settings
 * @param plugins folder of plugins, which need not be there
 */
public record Stores(Configuration settings, Path plugins) {

  private static final String SETTINGS = "FLINK_CONF_DIR";
  private static final String PLUGINS = "FLINK_PLUGINS_DIR";

  /**
   * Those of a site.
   *
   * @param environment in which Flink's own variables may say where settings and plugins are
   * @param usual folder of plugins where nothing is said
   * @throws RunException if the settings cannot be read
   */
  public static Stores of(Map<String, String> environment, Path usual) {
    String folder = environment.getOrDefault(SETTINGS, "");
    try {
      return new Stores(folder.isEmpty() ? new Configuration() : GlobalConfiguration.loadConfiguration(folder), Path.of(
          environment.getOrDefault(PLUGINS, usual.toString())));
    } catch (IllegalConfigurationException e) {
      throw new RunException(SETTINGS + ": the settings there cannot be read: " + e.getMessage());
    }
  }

  /** Makes them known in this process. */
  public void open() {
    // Its plugins for S3 say at each start that a part of theirs is old, with the place in the program.
    System.setProperty("aws.java.v1.disableDeprecationAnnouncement", "true");
    try {
      FileSystem.initialize(settings, Files.isDirectory(plugins) ? new DefaultPluginManager(
          new DirectoryBasedPluginFinder(plugins).findPlugins(), CoreOptions.getPluginParentFirstLoaderPatterns(
              settings)) : null);
    } catch (IOException e) {
      throw new RunException("the plugins of Flink cannot be read: " + FileTrouble.message(plugins.toString(), e));
    }
  }

  /** Says where they are to a process that is to be started. */
  void tell(Map<String, String> environment) {
    environment.put(PLUGINS, plugins.toString());
  }
}
