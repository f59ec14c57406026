package dev.pawl.mqtt.client;

import static com.tngtech.archunit.core.domain.JavaCall.Predicates.target;
import static com.tngtech.archunit.core.domain.properties.HasName.Predicates.nameMatching;
import static com.tngtech.archunit.core.domain.properties.HasOwner.Predicates.With.owner;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption.DoNotIncludeTests;
import dev.pawl.mqtt.support.Embedded;
import dev.pawl.mqtt.support.Foreign;
import dev.pawl.mqtt.time.HarnessClock;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.lang.reflect.Field;
import java.lang.reflect.Method;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import org.awaitility.Awaitility;
import org.eclipse.paho.mqttv5.client.MqttAsyncClient;
import org.eclipse.paho.mqttv5.common.MqttMessage;
import org.eclipse.paho.mqttv5.common.MqttSubscription;
import org.eclipse.paho.mqttv5.common.packet.MqttConnect;
import org.eclipse.paho.mqttv5.common.packet.MqttProperties;
import org.eclipse.paho.mqttv5.common.packet.MqttPublish;
import org.eclipse.paho.mqttv5.common.packet.MqttSubscribe;
import org.junit.jupiter.api.Test;

/** That what listens cannot publish: by its methods, by who calls whom, by its socket, and by what a broker sees. */
class ReceiveOnlyTest {

  private static final JavaClasses CLASSES = new ClassFileImporter().withImportOption(new DoNotIncludeTests())
      .importPackages("dev.pawl.mqtt");

  @Test
  void aListeningConnectionHasNoMethodThatSends() {
    assertThat(Arrays.stream(ListeningConnection.class.getDeclaredMethods()).map(Method::getName))
        .containsOnly("asPublished", "close", "renew", "askForDrops", "silence", "askForLife", "requireKept");
  }

  @Test
  void onlyThePublishingConnectionAndWillsCallTheLibrarysPublish() {
    noClasses().that().doNotHaveFullyQualifiedName(PublishingConnection.class.getName())
        .should().callMethodWhere(target(nameMatching("publish")).and(target(owner(paho())))).check(CLASSES);
    noClasses().that().doNotHaveFullyQualifiedName(ConnectOptions.class.getName())
        .should().callMethodWhere(target(nameMatching("setWill")).and(target(owner(paho())))).check(CLASSES);
  }

  private static DescribedPredicate<JavaClass> paho() {
    return DescribedPredicate.describe("the MQTT library", c -> c.getPackageName().startsWith("org.eclipse.paho"));
  }

  @Test
  void watchingAndRecordingDoNotKnowThePublishingConnectionButForVerdicts() {
    noClasses().that().resideInAnyPackage("dev.pawl.mqtt.live", "dev.pawl.mqtt.feed", "dev.pawl.mqtt.page")
        .and().doNotHaveFullyQualifiedName("dev.pawl.mqtt.live.VerdictPublisher")
        .should().dependOnClassesThat().areAssignableTo(PublishingConnection.class).check(CLASSES);
    classes().that().implement(PublishPermit.class).should().haveFullyQualifiedName("dev.pawl.mqtt.guard.BenchGuard")
        .check(CLASSES);
  }

  @Test
  void theSocketRefusesPublishAndWills() throws Exception {
    MqttMessage message = new MqttMessage("x".getBytes());
    MqttPublish publish = new MqttPublish("a", message, new MqttProperties());
    publish.setMessageId(1);
    MqttSubscribe subscribe = new MqttSubscribe(new MqttSubscription("a", 1), new MqttProperties());
    subscribe.setMessageId(2);
    ByteArrayOutputStream sent = new ByteArrayOutputStream();
    ReceiveOnlyStream stream = new ReceiveOnlyStream(sent);
    stream.write(connect(null));
    stream.write(subscribe.getHeader());
    stream.write(subscribe.getPayload());
    int before = sent.size();
    assertThatThrownBy(() -> stream.write(publish.getHeader())).isInstanceOf(IOException.class)
        .hasMessageContaining("receive-only");
    assertThatThrownBy(() -> stream.write(subscribe.getHeader())).isInstanceOf(IOException.class);
    assertThat(sent.size()).isEqualTo(before);
    ReceiveOnlyStream other = new ReceiveOnlyStream(new ByteArrayOutputStream());
    assertThatThrownBy(() -> other.write(connect(message))).isInstanceOf(IOException.class);
  }

  private static byte[] connect(MqttMessage will) throws Exception {
    MqttProperties properties = new MqttProperties();
    properties.setValidProperties(new Byte[] {});
    MqttConnect packet = new MqttConnect("c", 5, true, 10, properties, new MqttProperties());
    if (will != null) {
      packet.setWillMessage(will);
      packet.setWillDestination("w");
    }
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    bytes.write(packet.getHeader());
    bytes.write(packet.getPayload());
    return bytes.toByteArray();
  }

  @Test
  void evenWithTheLibrarysClientInHandNothingReachesTheBroker() throws Exception {
    Embedded broker = new Embedded();
    InboundQueue queue = new InboundQueue(100, HarnessClock.started());
    try (Foreign all = new Foreign(broker.address(), "all").listen("#");
        ListeningConnection listening = new ListeningConnection(ConnectionSettings.of(broker.address(), "l"),
            List.of("a"), queue)) {
      MqttAsyncClient inside = ((Link) field(ListeningConnection.class, "link").get(listening)).current();
      inside.publish("a", "smuggled".getBytes(), 1, false);
      Awaitility.await().atMost(Duration.ofSeconds(15)).until(() -> {
        return queue.take(10_000_000L) instanceof Inbound.Lost;
      });
      all.send("end", "end");
      assertThat(all.next(10_000).topic()).isEqualTo("end");
    } finally {
      broker.close();
    }
  }

  private static Field field(Class<?> type, String name) throws NoSuchFieldException {
    Field field = type.getDeclaredField(name);
    field.setAccessible(true);
    return field;
  }
}
