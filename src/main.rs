//! The program `dwell`: everything it does is in the library.

fn main() -> std::process::ExitCode {
    dwell::cli::run()
}
