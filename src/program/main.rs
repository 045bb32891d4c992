//! The native program: assessments without a page, calculations, sources, schemas, setups, and the service.

mod figure;
mod input;
mod listed;
mod rate_commands;
mod sign;
mod sources;

use anyhow::{Context, Result};
use clap::{Parser, Subcommand};
use input::{Refused, named, none_wrong, read_answers, read_config, read_setup};
use model::config::{NEWEST_FORMAT, Setup, demo_config, demo_setup};
use presurvey::own_words::check_wording;
use service::{CopyError, ServeOptions, Service, Surroundings, assess_again, serve, set_password};
use std::io::{IsTerminal, Read, Write};
use std::net::SocketAddr;
use std::path::PathBuf;
use std::process::ExitCode;

/// What a home needs before a car charge point is fitted.
#[derive(Parser)]
#[command(name = "presurvey", version)]
struct Cli {
    #[command(subcommand)]
    command: Command,
}

#[derive(Subcommand)]
enum Command {
    /// Assesses a file of answers, or an enquiry as it came by mail (`enquiry.json`), and prints the assessment as JSON.
    Assess {
        /// The file of answers, or the record of an enquiry, whose answers are assessed again; `-` is standard input.
        file: PathBuf,
        /// The published config; without it and without a setup the invented demo's is used, and the assessment says so.
        #[arg(long)]
        config: Option<PathBuf>,
        /// The installer's private setup, in place of what would be published from it.
        #[arg(long, conflicts_with = "config")]
        setup: Option<PathBuf>,
        /// Adds `working`: how each figure was reached, with formula, inputs and source.
        #[arg(long)]
        working: bool,
    },
    /// One calculation worked out, with how: `presurvey figure voltage-drop length=20m size=6mm2 current=32A`.
    Figure {
        /// The name of the calculation; without it all are listed, with what each takes.
        name: Option<String>,
        /// Its inputs: KEY=VALUE, each value with its unit; without any, the inputs are explained.
        arguments: Vec<String>,
        /// As JSON, for programs.
        #[arg(long)]
        json: bool,
    },
    /// Where the figures are from: what was checked, what is from memory alone, which clauses are of an edition no longer in force.
    Sources {
        /// As JSON, for programs.
        #[arg(long)]
        json: bool,
        /// The sheet on which a qualified person checks and signs, clause by clause and value by value.
        #[arg(long, conflicts_with = "json")]
        sign: bool,
    },
    /// Every flag with why it matters, what is done, what the homeowner is told, and its source: one page of Markdown.
    Flags,
    /// The JSON Schemas of answers, config, setup, enquiry and recorded jobs, in one JSON object.
    Schema,
    /// Begins a setup from ten figures, or from jobs you remember: `presurvey setup name="Your firm" hour=£52 mark-up=20% …`.
    ///
    /// Without arguments it lists them. What is left out has a default, and the report says so; no visitor sees a price until you confirm
    /// the rates.
    Setup {
        /// KEY=VALUE each.
        figures: Vec<String>,
        /// A file of jobs that you remember, with what was done, hours and price: rates and times that were not given are inferred from
        /// them.
        #[arg(long)]
        jobs: Option<PathBuf>,
        /// The day of the setup; today if left out.
        #[arg(long)]
        day: Option<jiff::civil::Date>,
        /// The file to write the setup to; without it only the report is made.
        #[arg(long)]
        out: Option<PathBuf>,
    },
    /// Brings a price list in CSV into a setup, and says line by line what was taken and what was not understood.
    Prices {
        /// The price list; `-` is standard input.
        file: PathBuf,
        /// The setup to read it into.
        #[arg(long)]
        setup: PathBuf,
        /// The file to write the changed setup to; without it only the report is made.
        #[arg(long)]
        out: Option<PathBuf>,
    },
    /// Compares recorded jobs with their estimates: whether the bands hold, what takes longer than estimated, what to change in the setup.
    Calibrate {
        /// The jobs; `-` is standard input.
        file: PathBuf,
        /// The setup to compare them with; without it nothing is proposed.
        #[arg(long)]
        setup: Option<PathBuf>,
        /// Accepts the proposal: the file to write the changed setup to.
        #[arg(long, requires = "setup")]
        out: Option<PathBuf>,
        /// As JSON, for programs; the proposal is a JSON Patch (RFC 6902).
        #[arg(long)]
        json: bool,
    },
    /// Checks a setup and prints the config that a visitor would be given.
    Publish {
        /// The setup file; `-` is standard input.
        setup: PathBuf,
        /// For a form that was copied to a website before: 1 is what version 0.1.0 reads, 2 what 0.2.0 does; left out, today's. A form
        /// that is given its config by the service asks for its own.
        #[arg(long, default_value_t = NEWEST_FORMAT, value_parser = clap::value_parser!(u8).range(1..=i64::from(NEWEST_FORMAT)))]
        format: u8,
    },
    /// Sets the installer's password, read from standard input.
    Password {
        /// The service's data folder.
        #[arg(long)]
        data: PathBuf,
    },
    /// Assesses every kept enquiry again by a setup's prices, after a change of rates; the service may run meanwhile.
    AssessAgain {
        /// The service's data folder.
        #[arg(long)]
        data: PathBuf,
        /// The setup whose prices count from now on.
        #[arg(long)]
        setup: PathBuf,
    },
    /// Copies everything that a service keeps into a new folder; the service may run meanwhile.
    Backup {
        /// The service's data folder.
        #[arg(long)]
        data: PathBuf,
        /// The folder to make. It holds names, telephone numbers and photos, readable by you alone.
        #[arg(long)]
        to: PathBuf,
    },
    /// Makes a data folder of a backup. Everybody signs in anew.
    Restore {
        /// The folder that `backup` made.
        #[arg(long)]
        from: PathBuf,
        /// The data folder to make; one that is there already is left alone.
        #[arg(long)]
        data: PathBuf,
    },
    /// Runs the service and both pages.
    Serve {
        /// The folder in which it keeps records and photos; created if needed.
        #[arg(long)]
        data: PathBuf,
        /// The folder of the built pages (with `form` and `triage` in it); without it only the API is served.
        #[arg(long)]
        pages: Option<PathBuf>,
        /// The address to listen on. A service that the internet can reach belongs behind a proxy that encrypts.
        #[arg(long, default_value = "127.0.0.1:8080")]
        listen: SocketAddr,
        /// An invented installer with invented enquiries, and a password drawn at each start.
        #[arg(long, conflicts_with = "setup")]
        demo: bool,
        /// The installer's private setup; what is published from it is all that a visitor is given.
        #[arg(long, required_unless_present = "demo")]
        setup: Option<PathBuf>,
        /// The address that people open it by, such as `https://enquiries.example`, in place of the setup's `public_address`; the
        /// environment's `PRESURVEY_ADDRESS` says the same.
        #[arg(long)]
        address: Option<String>,
    },
}

fn main() -> ExitCode {
    match run(Cli::parse().command) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("presurvey: {error:#}");
            // 2 means that the input was not allowed, as for a wrong command line; 1 means any other failure.
            if error.is::<Refused>() { ExitCode::from(2) } else { ExitCode::FAILURE }
        }
    }
}

fn run(command: Command) -> Result<()> {
    match command {
        Command::Assess { file, config, setup, working } => {
            let config = match (config, setup) {
                (Some(config), _) => read_config(&config)?,
                (None, Some(setup)) => read_setup(&setup)?.publish(),
                (None, None) => demo_config(),
            };
            let answers = read_answers(&file)?;
            let assessment = engine::assess(&answers, &config);
            if !working {
                return print(&serde_json::to_string(&assessment)?);
            }
            let working = figures::working(&answers, &config);
            print(&serde_json::to_string(&WithWorking { assessment, working })?)
        }
        Command::Figure { name, arguments, json } => print(&figure::tell(name.as_deref(), &arguments, json)?),
        Command::Sources { sign: true, .. } => print(&sign::page()?),
        Command::Sources { json, .. } => print(&sources::tell(json)?),
        Command::Flags => print(presurvey::flag_report::report().trim_end()),
        Command::Schema => print(&serde_json::to_string_pretty(&schemas())?),
        Command::Publish { setup, format } => {
            let file = setup;
            let setup = read_setup(&file)?;
            none_wrong(&named(&file), &check_wording(&setup.wording))?;
            surroundings(&setup, &named(&file))?;
            corrected(&setup).for_each(|told| eprintln!("{told}"));
            let config = setup.publish();
            print(&if format == NEWEST_FORMAT {
                serde_json::to_string_pretty(&config)?
            } else {
                serde_json::to_string_pretty(&config.in_format(format))?
            })
        }
        Command::Setup { figures, jobs, day, out } => {
            print(&rate_commands::setup(&figures, jobs.as_deref(), day, out.as_deref())?)
        }
        Command::Prices { file, setup, out } => print(&rate_commands::prices(&file, &setup, out.as_deref())?),
        Command::Calibrate { file, setup, out, json } => {
            print(&rate_commands::calibrate(&file, setup.as_deref(), out.as_deref(), json)?)
        }
        Command::AssessAgain { data, setup } => {
            let config = read_setup(&setup)?.publish();
            in_runtime(async move { again(&data, &config).await })
        }
        Command::Backup { data, to } => in_runtime(async move { copied(&data, &to, "backed up").await }),
        Command::Restore { from, data } => in_runtime(async move { copied(&from, &data, "restored").await }),
        Command::Password { data } => in_runtime(change_password(data)),
        Command::Serve { data, pages, listen, demo, setup, address } => {
            let file = setup;
            let mut setup =
                file.as_ref().map_or_else(|| Ok::<Setup, Refused>(demo_setup()), |file| read_setup(file))?;
            let address =
                address.or_else(|| std::env::var("PRESURVEY_ADDRESS").ok().filter(|address| !address.is_empty()));
            setup.public_address = address.or(setup.public_address);
            let surroundings = surroundings(&setup, &file.map_or_else(String::new, |file| named(&file)))?;
            // The log goes to standard error, as standard output is for the addresses alone.
            tracing_subscriber::fmt().with_writer(std::io::stderr).with_target(false).init();
            corrected(&setup).for_each(|told| tracing::warn!("{told}"));
            // An earlier version took such a setup: it is no reason not to start.
            check_wording(&setup.wording).iter().for_each(|told| tracing::warn!("{told}; the rest holds"));
            let password = std::env::var("PRESURVEY_PASSWORD").ok();
            let options = ServeOptions {
                data,
                pages,
                listen,
                config: setup.publish(),
                papers: setup.papers(),
                demo,
                password,
                surroundings,
            };
            in_runtime(async { serve(options).await.map_err(Into::into) })
        }
    }
}

/// What a setup tells the service of where it stands.
fn surroundings(setup: &Setup, file: &str) -> Result<Surroundings, Refused> {
    let Setup { public_address, proxies, enquiries_a_day, .. } = setup;
    Surroundings::read(public_address.as_deref(), proxies.as_deref(), *enquiries_a_day)
        .or_else(|wrong| none_wrong(file, &wrong).map(|()| Surroundings::default()))
}

/// The colours and other parts of an installer's look that could not be read and are replaced, one sentence each.
fn corrected(setup: &Setup) -> impl Iterator<Item = String> {
    setup.branding.published().1.into_iter().map(|model::config::Corrected { field, given, shown, contrast }| {
        format!("`{field}`: {given} has a contrast of {contrast} on its ground, less than the 4.5 that text needs: {shown} is shown")
    })
}

/// An assessment with the working of its figures beside it.
#[derive(serde::Serialize)]
struct WithWorking {
    #[serde(flatten)]
    assessment: engine::Assessment,
    working: Vec<figures::Working>,
}

fn schemas() -> serde_json::Value {
    serde_json::json!({
        "answers": schemars::schema_for!(model::answers::Answers),
        "config": schemars::schema_for!(model::config::Config),
        "setup": schemars::schema_for!(Setup),
        "enquiry": schemars::schema_for!(record::enquiry::Enquiry),
        "jobs": schemars::schema_for!(rates::Jobs),
    })
}

fn in_runtime(task: impl Future<Output = Result<()>>) -> Result<()> {
    tokio::runtime::Builder::new_multi_thread()
        .enable_all()
        // For files, hashes and the engine. Each thread may leave the allocator with a part of memory of its own, so they are few: this
        // program's choice.
        .max_blocking_threads(8)
        .build()
        .context("the program can't start its threads")?
        .block_on(task)
}

async fn again(data: &std::path::Path, config: &model::config::Config) -> Result<()> {
    if !data.join("presurvey.sqlite").is_file() {
        return Err(Refused(format!("{}: no service has kept anything in this folder", data.display())).into());
    }
    let service = Service::open(data, config, None, false).await?;
    let done =
        assess_again(&service, |progress| eprintln!("{} of {}", progress.done + progress.left, progress.of)).await;
    service.close().await;
    let progress = done.map_err(anyhow::Error::msg)?;
    if progress.left > 0 {
        eprintln!("{} left as they were: this version can't read them.", progress.left);
    }
    print(&format!("{} assessed again.", progress.done))
}

/// Copies a data folder, and says how far it is on a terminal.
async fn copied(from: &std::path::Path, to: &std::path::Path, done: &str) -> Result<()> {
    let shows = std::io::stderr().is_terminal();
    let told = |copied, of| {
        if shows {
            eprint!("\r{copied} of {of} photos");
        }
    };
    let copied = service::copy_data(from, to, told).await;
    if shows {
        eprintln!();
    }
    let service::Copied { enquiries, photos, missing } = copied.map_err(|error| match error {
        CopyError::NothingThere(_) | CopyError::Taken(_) => Refused(error.to_string()).into(),
        other => anyhow::Error::from(other),
    })?;
    print(&format!("{enquiries} enquiries and {photos} photos {done}."))?;
    if missing.is_empty() {
        return Ok(());
    }
    let list = missing.join("\n  ");
    anyhow::bail!("these photos are named and were not there whole, all else is {done}:\n  {list}")
}

async fn change_password(data: PathBuf) -> Result<()> {
    let mut words = String::new();
    std::io::stdin().read_to_string(&mut words).context("the password can't be read from standard input")?;
    // Only the database matters here, not the config that is published.
    let service = Service::open(&data, &demo_config(), None, false).await?;
    let done = set_password(&service, words.trim_end_matches(['\r', '\n'])).await;
    service.close().await;
    done.map_err(|error| match error {
        service::PasswordError::Length { .. } => Refused(error.to_string()).into(),
        other => anyhow::Error::from(other),
    })?;
    eprintln!("The password is set; whoever was signed in is signed out.");
    Ok(())
}

/// Writes one line to standard output; it is no error if the reader stops early (`| head`).
fn print(text: &str) -> Result<()> {
    let mut out = std::io::stdout().lock();
    match writeln!(out, "{text}").and_then(|()| out.flush()) {
        Err(error) if error.kind() != std::io::ErrorKind::BrokenPipe => Err(error.into()),
        _ => Ok(()),
    }
}
