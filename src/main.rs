//! The program: hands its arguments to the command line and ends with its code.

fn main() -> std::process::ExitCode {
    let arguments: Vec<_> = std::env::args_os().skip(1).collect();
    std::process::ExitCode::from(u8::try_from(potset_cli::run(&arguments)).unwrap_or(2))
}
