"""Calendars read by icalendar and by vobject, and held against the timelines in JSON that come with them.

Needs both from PyPI. `cargo test --test calendar -- --ignored python` runs it.
"""

import json
import sys
from datetime import datetime, timezone

import icalendar
import vobject


def by_icalendar(text):
    calendar = icalendar.Calendar.from_ical(text)
    assert not calendar.errors, calendar.errors
    for event in calendar.walk("VEVENT"):
        assert not event.errors, event.errors
        start = event.decoded("DTSTART")
        end = event.decoded("DTEND") if "DTEND" in event else start
        alarms = [
            (start + alarm.decoded("TRIGGER"), str(alarm["DESCRIPTION"])) for alarm in event.walk("VALARM")
        ]
        yield str(event["UID"]), start, end, str(event["SUMMARY"]), str(event["DESCRIPTION"]), alarms


def by_vobject(text):
    calendar = vobject.readOne(text)
    calendar.validate(raiseException=True)
    for event in calendar.vevent_list:
        start = event.dtstart.value
        end = event.dtend.value if hasattr(event, "dtend") else start
        alarms = [
            (start + alarm.trigger.value, alarm.description.value) for alarm in getattr(event, "valarm_list", [])
        ]
        yield event.uid.value, start, end, event.summary.value, event.description.value, alarms


def told(stamp, like):
    """A time of the timeline; without its offset where the calendar's floats."""
    moment = datetime.fromisoformat(stamp)
    return moment.replace(tzinfo=None) if like.tzinfo is None else moment.astimezone(timezone.utc)


def check(case):
    timeline = case["timeline"]
    one, other = list(by_icalendar(case["ics"])), list(by_vobject(case["ics"]))
    assert one == other, "the two readers differ"
    assert len(one) == len(timeline["phases"])
    rung = 0
    for (_, start, end, summary, description, alarms), phase in zip(one, timeline["phases"]):
        assert summary.removeprefix("CAUTION, ").startswith(f"{phase['cook']}: {phase['name']}"), summary
        assert ("on time" in summary) == (timeline["on_time"] != "always"), summary
        assert (start, end) == (told(phase["start_earliest"], start), told(phase["end_latest"], start)), summary
        jobs = [
            job
            for job in timeline["jobs"]
            if (job["cook"], job["phase"]) == (phase["cook"], phase["name"]) and job["hands"] and not job["dropped"]
        ]
        assert [at for at, _ in alarms] == [told(job["at"], start) for job in jobs], summary
        assert all(job["text"] in text and job["text"] in description for job, (_, text) in zip(jobs, alarms))
        rung += len(jobs)
    return len(one), rung


def check_hostile(case):
    for read in (by_icalendar, by_vobject):
        [(_, _, _, summary, _, [(_, alarm)])] = read(case["ics"])
        assert summary == case["summary"], (read, summary, case["summary"])
        assert alarm.startswith(case["alarm"]), (read, alarm, case["alarm"])


given = json.load(sys.stdin)
counts = [check(case) for case in given["cases"]]
for case in given["hostile"]:
    check_hostile(case)
assert counts and given["hostile"]
events, alarms = sum(n for n, _ in counts), sum(n for _, n in counts)
print(f"{len(counts)} calendars, {events} events, {alarms} alarms read alike; {len(given['hostile'])} hostile ones as well")
