//! Nobody but the page is answered, and nothing that is sent takes the desk down.

use super::support::{COOK, Desk};

#[test]
fn whoever_does_not_know_the_address_learns_nothing() {
    let desk = Desk::of(COOK);
    let wrong = "/0123456789abcdef0123456789abcdef/";
    assert_ne!(wrong, desk.path);
    for target in
        ["/", "", "*", wrong, "/text", "//text", &format!("{wrong}text"), &desk.path[..desk.path.len() - 1]]
    {
        let answer = desk.send("GET", target, &[], b"");
        assert!([0, 400, 404].contains(&answer.status), "{target}: {answer:?}");
        assert!(!answer.body.contains("Apples"), "{target}");
    }
    assert_eq!(desk.path.len(), 34, "128 bits as hexadecimal digits between slashes");
    assert_ne!(desk.path, Desk::of(COOK).path, "a new one every time");
}

#[test]
fn a_page_elsewhere_is_not_answered_though_it_know_the_address() {
    let desk = Desk::of(COOK);
    let text = format!("{}text", desk.path);
    let save = format!("{}save?mark={}", desk.path, desk.text().1);
    let own = format!("http://127.0.0.1:{}", desk.port);
    let elsewhere = format!("http://127.0.0.1:{}", desk.port.wrapping_add(1));
    for origin in
        ["http://rowing.example", "null", "", "https://127.0.0.1", &elsewhere, &own.replace("http", "https")]
    {
        for (method, target) in [("GET", &text), ("POST", &save)] {
            let answer = desk.send(method, target, &[("Origin", origin)], b"gone");
            assert_eq!(answer.status, 403, "{origin:?} {method}");
        }
    }
    // A name that somebody else points to this machine.
    let host = format!("rowing.example:{}", desk.port);
    for headers in [vec![("Host", host.as_str())], vec![("Host", ""), ("Origin", own.as_str())]] {
        assert_eq!(desk.send("GET", &text, &headers, b"").status, 403, "{headers:?}");
    }
    for site in ["cross-site", "same-site"] {
        let headers = [("Origin", own.as_str()), ("Sec-Fetch-Site", site)];
        assert_eq!(desk.send("POST", &save, &headers, b"gone").status, 403, "{site}");
    }
    assert_eq!(
        desk.send("POST", &save, &[], b"gone").status,
        403,
        "a browser names the origin of what it posts"
    );
    assert_eq!(desk.read(), COOK.as_bytes());
    assert_eq!(desk.send("GET", &text, &[], b"").status, 200, "somebody who typed the address");
}

#[test]
fn nothing_outside_is_served_and_every_answer_keeps_to_itself() {
    let desk = Desk::of(COOK);
    for what in [
        "../apples.dwell",
        "..%2fapples.dwell",
        "sheet/../text",
        "explain/..",
        "apples.dwell",
        "sheet/",
        "save",
        "x",
    ] {
        let answer = desk.ask("GET", what, b"");
        assert!([404, 405].contains(&answer.status), "{what}: {answer:?}");
    }
    assert_eq!(desk.ask("POST", "text", b"x").status, 405);
    assert_eq!(desk.ask("GET", "findings", b"").status, 405);
    assert_eq!(desk.ask("DELETE", "text", b"").status, 405);
    let page = desk.ask("GET", "", b"");
    for header in ["default-src 'none'", "frame-ancestors 'none'", "no-referrer", "nosniff", "no-store"] {
        assert!(page.head.contains(header), "{header}: {}", page.head);
    }
    // A cook may not name what lies outside the folder of the file.
    let text = "cook \"x\"\nkit from \"../../secret.dwell\"\n";
    let found = desk.ask("POST", "findings", text.as_bytes()).json();
    let codes: Vec<_> =
        found["findings"].as_array().expect("findings").iter().map(|one| one["code"].clone()).collect();
    assert!(codes.iter().any(|code| code == "file-outside"), "{codes:?}");
}

#[test]
fn foul_requests_leave_the_desk_standing() {
    let desk = Desk::of(COOK);
    let long = vec![b'a'; 11 << 20];
    assert_eq!(desk.ask("POST", "findings", &long).status, 422);
    assert_eq!(desk.ask("POST", "findings", &[0xff, 0xfe, 0x00]).status, 422);
    // Half of a UTF-16 pair, as UTF-8 would have it.
    assert_eq!(desk.ask("POST", "findings", &[0xed, 0xa0, 0xbd]).status, 422);
    for bytes in [
        &b"\r\n\r\n"[..],
        b"GET",
        b"GET / HTTP/9.9\r\n\r\n",
        &[0; 4096],
        b"POST / HTTP/1.1\r\nContent-Length: -1\r\n\r\n",
    ] {
        desk.raw(bytes);
    }
    // Some who say nothing at all, and go.
    for _ in 0..20 {
        drop(std::net::TcpStream::connect(("127.0.0.1", desk.port)));
    }
    assert_eq!(desk.text().0, COOK);
}
