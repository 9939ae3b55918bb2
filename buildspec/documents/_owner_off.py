"""How an owner shuts off what was added, worked out from the build; what stays live all the same; what lights mean."""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.documents import _owner as owner
from buildspec.documents._owner_spots import own_feeds
from buildspec.drawings.legend import where
from buildspec.model import Accessory, Contact, Resolved
from buildspec.packet import Packet
from buildspec.tongues import Tongue


def steps(packet: Packet) -> list[str]:
    """What to switch off, in order, and what to do where it burns."""
    build, t = packet.sized.build, owner.tongue(packet)
    return [*keys_off(packet, t), *by_hand(build, t), *from_outside(build, t), *with_ignition(build, t)]


def keys_off(packet: Packet, t: Tongue) -> Iterator[str]:
    for panel in packet.sized.build.panels.values():
        if panel.part.panel:
            yield t.say("Switch every key off: {place}.", place=t.own(where(packet.sized, panel)))


def by_hand(build: Resolved, t: Tongue) -> Iterator[str]:
    """Things with a switch of their own, and a switch between the batteries."""
    names = owner.names(build, t)
    for item, contact in own_switches(build):
        yield t.say(
            "{thing}: its own switch, {place}.",
            thing=t.large(names[item.name]),
            place=owner.place(build, contact.place, t),
        )
    for item in build.accessories.values():
        if item.part.category == "inverter" and not item.switch:
            at = owner.place(build, item.place, t)
            yield t.say("{thing}: off on the device itself, {place}.", thing=names[item.name], place=at)
    for way in build.isolation.values():
        if way.type == "manual-switch":
            at = owner.place(build, way.place, t)
            yield t.say("Turn the battery switch to off: {place}.", place=at)


def own_switches(build: Resolved) -> Iterator[tuple[Accessory, Contact]]:
    """Accessories with a switch that is no key of a panel."""
    for circuit in build.circuits:
        item = build.accessories.get(circuit.item)
        for contact in circuit.contacts:
            if item and contact.kind == "switch" and not item.switch:
                yield item, contact


def from_outside(build: Resolved, t: Tongue) -> Iterator[str]:
    if any(s.type == "shore" for s in build.supplies.values()):
        yield t.say("Pull the mains plug.")
    yield t.say("Unplug everything from the added outlets.")


def with_ignition(build: Resolved, t: Tongue) -> Iterator[str]:
    names = owner.names(build, t)
    dead = [names[i.name] for i in unswitched(build) if not always_live(build, i)]
    if dead:
        yield t.say("Turn the ignition off: that stops {things}.", things=listed(dead, t))
    else:
        yield t.say("Turn the ignition off.")


def unswitched(build: Resolved) -> Iterator[Accessory]:
    """Electrical things that no key, trigger or switch of their own turns off."""
    fed = {c.item for c in build.circuits if c.kind == "load"}
    own = {item.name for item, _ in own_switches(build)}
    for item in build.accessories.values():
        if item.name in fed - own and not (item.switch or item.trigger or item.part.category == "inverter"):
            yield item


def always_live(build: Resolved, item: Accessory) -> bool:
    """With the key off as well."""
    feeds = own_feeds(build)
    source = next((c.source for c in build.circuits if c.item == item.name and c.kind == "load"), "")
    state = feeds[source].state if source in feeds else "any"
    return item.works_when == "any time" and state == "any"


def live(packet: Packet) -> str:
    """What nobody can shut off without a tool."""
    build, t = packet.sized.build, owner.tongue(packet)
    names = owner.names(build, t)
    said = [t.say("There is no one switch for everything.")]
    things = [names[i.name] for i in unswitched(build) if always_live(build, i)]
    if things:
        said.append(t.say("These stay live, with the key off as well: {things}.", things=listed(things, t)))
    if any(b.role == "house" for b in build.batteries.values()):
        said.append(t.say("The second battery and its cables stay live; only a workshop can cut them off."))
    if any(s.type == "solar" for s in build.supplies.values()):
        said.append(t.say("The solar panel makes current whenever light falls on it."))
    return " ".join(said)


def burning(t: Tongue) -> str:
    return t.say(
        "Smoke or a smell of burning: ignition off, everyone out and well away, call the emergency number."
    )


def lights(packet: Packet) -> list[str]:
    """What a light at the keys means, where the panel's part says that it has one."""
    t = owner.tongue(packet)
    found = [p.part.panel for p in packet.sized.build.panels.values() if p.part.panel]
    said = []
    if any(trait.indicators for trait in found):
        said.append(t.say("Light at a key: it is on."))
    if any(trait.kind == "solid-state" for trait in found):
        said.append(
            t.say(
                "A key blinks: its protection has switched it off; see under “{heading}”.",
                heading=t.say("Something is dead? Look here"),
            )
        )
    if not all(trait.indicators for trait in found):
        said.append(
            t.say("The keys have no light that shows what is on: before you leave, look at each one.")
        )
    return said


def listed(names: list[str], t: Tongue) -> str:
    """All names as one sentence, small inside it, two of one name once."""
    small = list(dict.fromkeys(t.small(name) for name in names))
    if len(small) == 1:
        return small[0]
    return t.say("{first} and {last}", first=", ".join(small[:-1]), last=small[-1])
