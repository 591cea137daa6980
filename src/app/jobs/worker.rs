//! The thread that works the queue of a window.

use std::sync::mpsc::{self, Receiver, RecvTimeoutError, Sender, TryRecvError};
use std::thread;

use super::Order;
use super::queue::Queue;
use crate::command::Command;

/// A thread with a queue.
pub struct Worker {
    orders: Option<Sender<Order>>,
    results: Receiver<Command>,
    thread: Option<thread::JoinHandle<()>>,
}

impl Worker {
    /// Starts the thread on a queue. `wake` is called after each result.
    pub fn start(queue: Queue, wake: impl Fn() + Send + 'static) -> Self {
        let (orders, inbox) = mpsc::channel();
        let (outbox, results) = mpsc::channel();
        #[expect(clippy::disallowed_methods, reason = "this is the worker")]
        let thread = thread::spawn(move || serve(queue, &inbox, &outbox, &wake));
        Self { orders: Some(orders), results, thread: Some(thread) }
    }

    /// Hands an order over.
    ///
    /// # Errors
    /// The order, if the thread is gone.
    pub fn order(&self, order: Order) -> Result<(), Order> {
        match &self.orders {
            Some(orders) => orders.send(order).map_err(|back| back.0),
            None => Err(order),
        }
    }

    /// A result, if one is there.
    pub fn poll(&self) -> Option<Command> {
        self.results.try_recv().ok()
    }
}

/// Works until the other end is gone.
fn serve(mut queue: Queue, inbox: &Receiver<Order>, outbox: &Sender<Command>, wake: &dyn Fn()) {
    let mut newer = || match inbox.try_recv() {
        Ok(order) => Some(order),
        Err(TryRecvError::Empty) => None,
        Err(TryRecvError::Disconnected) => Some(Order::End),
    };
    while !queue.ended() {
        let order = match queue.pause() {
            Some(pause) => inbox.recv_timeout(pause),
            None => inbox.recv().map_err(|_| RecvTimeoutError::Disconnected),
        };
        match order {
            // A drag puts many questions: all that is there is taken in before a piece is worked.
            Ok(order) => queue.follow(order),
            Err(RecvTimeoutError::Disconnected) => return,
            Err(RecvTimeoutError::Timeout) => {
                let mut tell = |result| {
                    if outbox.send(result).is_ok() {
                        wake();
                    }
                };
                queue.work(|_| true, &mut newer, &mut tell);
            }
        }
    }
}

impl Drop for Worker {
    fn drop(&mut self) {
        self.orders = None;
        if let Some(thread) = self.thread.take() {
            // A piece takes some ten milliseconds; a panic in it was caught.
            let _ = thread.join();
        }
    }
}
